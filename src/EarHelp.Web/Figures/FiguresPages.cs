using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Figures;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Editions;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Figures;

/// <summary>What happened in a month, in figures in which nobody can be found.</summary>
public sealed class FiguresPages(StaffGate gate, FiguresCount figures, ServedEditions editions, Auditor auditor, FaultPages faults)
{
    internal const string Address = StaffParts.Prefix + "/figures";

    const string Month = "month";

    internal static readonly StaffRole[] Roles = [StaffRole.Clinician, StaffRole.Author, StaffRole.Approver, StaffRole.Administrator];

    static readonly YearMonthPattern Written = YearMonthPattern.Iso;

    public async Task ReadAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not var (reader, counted, month, tables))
            return;
        var words = new FigureWords(reader.Words);
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, reader.Words["figures heading"], html =>
        {
            html.Element("h1"u8, reader.Words.Letter.Text("figures of", ("month", words.Month(month)))).Element("p"u8, words.Hint(counted.CountedAt));
            WriteMonths(html, words, counted, month);
            if (tables.IsEmpty)
                html.Element("p"u8, reader.Words["figures none"]);
            else
                html.Markup("<p><a class=\"button quiet\" download"u8).Attribute("href"u8, $"{Address}.csv?{Month}={Written.Format(month)}").Markup(">"u8).Text(reader.Words["figures file"]).Markup("</a></p>"u8);
            foreach (var table in tables)
                FigureTableWriter.Write(html, words, table);
        }));
    }

    public async Task FileAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not var (_, _, month, tables))
            return;
        context.Response.ContentType = "text/csv; charset=utf-8; header=present";
        context.Response.Headers.ContentDisposition = $"attachment; filename=figures-{Written.Format(month)}.csv";
        await context.Response.WriteAsync(FigureCsv.Write(Written.Format(month), tables), context.RequestAborted);
    }

    async Task<(SignedIn Reader, CountedMonths Counted, YearMonth Month, ImmutableArray<FigureTable> Tables)?> OpenAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, Roles) is not { } reader)
            return null;
        var asked = context.Request.Query[Month].ToString();
        var read = Written.Parse(asked);
        if (asked.Length > 0 && !read.Success)
        {
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
            return null;
        }

        await auditor.AddAsync(reader.Account.Id, AuditDeed.ReadFigures, null, context.RequestAborted);
        var served = editions.Current!;
        var counted = await figures.FindAsync(served, context.RequestAborted);
        var month = asked.Length > 0 ? read.Value : counted.CountedAt.InZone(served.Edition.Clinic.Zone).Date.ToYearMonth();
        return (reader, counted, month, counted.Tables.GetValueOrDefault(month, []));
    }

    static void WriteMonths(HtmlWriter html, FigureWords words, CountedMonths counted, YearMonth shown)
    {
        html.Markup("<nav"u8).Attribute("aria-label"u8, words.Of["figures months"]).Markup("><ul class=\"desk\">"u8);
        foreach (var month in counted.Tables.Keys.Reverse())
        {
            html.Markup("<li><a"u8).Attribute("href"u8, $"{Address}?{Month}={Written.Format(month)}").Attribute("aria-current"u8, month == shown ? "page" : null).Markup(">"u8)
                .Text(words.Month(month)).Markup("</a></li>"u8);
        }

        html.Markup("</ul></nav>"u8);
    }
}
