using EarHelp.Clinic.Staff;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Desk;

/// <summary>The page on which the clinic is closed at once, and opened again.</summary>
public sealed class ClosingPages(StaffGate gate, Closing closing)
{
    const string LastDay = "last-day";

    /// <summary>The longest closing in one step; a longer one belongs into content/clinic.md, where patients plan by it (common practice).</summary>
    const int LongestDays = 92;

    static readonly StaffRole[] Roles = [StaffRole.Desk, StaffRole.Clinician, StaffRole.Administrator];

    public async Task ReadAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, Roles) is { } reader)
            await SendAsync(context, reader, null);
    }

    public async Task CloseAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, Roles) is not var (by, fields))
            return;
        var day = LocalDatePattern.Iso.Parse(fields[LastDay].ToString());
        if (!day.Success || closing.Today is not { } today || day.Value < today || day.Value > today.PlusDays(LongestDays))
        {
            await SendAsync(context, by, "closing wrong day");
            return;
        }

        await closing.CloseAsync(by.Account.Id, day.Value, context.RequestAborted);
        await PageResponse.GoToAsync(context, StaffParts.Prefix + "/closing");
    }

    public async Task OpenAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, Roles) is not var (by, _))
            return;
        await closing.OpenAsync(by.Account.Id, context.RequestAborted);
        await PageResponse.GoToAsync(context, StaffParts.Prefix + "/closing");
    }

    Task SendAsync(HttpContext context, SignedIn reader, string? fault)
    {
        var page = StaffFrame.Write(reader, reader.Words["closing heading"], html => WriteBody(html, reader, fault));
        return PageResponse.SendAsync(context, page, fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }

    void WriteBody(HtmlWriter html, SignedIn reader, string? fault)
    {
        var words = reader.Words;
        html.Element("h1"u8, words["closing heading"]);
        StaffForm.WriteFault(html, words, fault);
        if (closing.InForce is { } now)
        {
            html.Markup("<p><strong>"u8).Text(words.Letter.Text("closing now", ("date", words.Letter.Date(now.LastDay)))).Markup("</strong></p>"u8)
                .Element("p"u8, words["closing open hint"]);
            StaffForm.Begin(html, StaffParts.Prefix + "/closing/open", reader.Token);
            StaffForm.End(html, words, "closing open");
        }

        html.Element("p"u8, words["closing hint"]);
        StaffForm.Begin(html, StaffParts.Prefix + "/closing", reader.Token);
        html.Markup("<div class=\"own\"><label for=\"last-day\">"u8).Text(words["closing last day"]).Markup("</label><input type=\"date\" id=\"last-day\" name=\"last-day\""u8)
            .Attribute("value"u8, closing.Today is { } today ? LocalDatePattern.Iso.Format(today) : null).Markup("></div>"u8);
        StaffForm.End(html, words, "closing close");
    }
}
