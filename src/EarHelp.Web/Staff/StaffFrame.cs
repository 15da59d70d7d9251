using System.Buffers;
using EarHelp.Clinic.Staff;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Figures;
using EarHelp.Web.Look;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Staff;

/// <summary>What stands around every page of staff: the clinic's name, the ways to the other pages, and the way out.</summary>
static class StaffFrame
{
    const int TypicalPageBytes = 16 * 1024;

    /// <summary>Which page is for whom; an empty list is for everybody.</summary>
    static readonly (string Address, string Words, StaffRole[] Roles)[] Ways =
    [
        (StaffParts.Prefix, "staff home", []),
        (StaffParts.Prefix + "/desk", "desk heading", [StaffRole.Desk, StaffRole.Clinician]),
        (StaffParts.Prefix + "/callers", "callers heading", [StaffRole.Desk, StaffRole.Clinician]),
        (AfterVisitParts.Prefix, "record list", [StaffRole.Desk, StaffRole.Clinician]),
        (StaffParts.Prefix + "/closing", "closing heading", [StaffRole.Desk, StaffRole.Clinician, StaffRole.Administrator]),
        (StaffParts.Prefix + "/recall", "recall heading", [StaffRole.Desk, StaffRole.Clinician, StaffRole.Approver, StaffRole.Administrator]),
        (StaffParts.Prefix + "/incidents", "incidents heading", [StaffRole.Clinician, StaffRole.Approver, StaffRole.Administrator]),
        (FiguresPages.Address, "figures heading", FiguresPages.Roles),
        (StaffParts.Prefix + "/accounts", "staff accounts", [StaffRole.Administrator]),
        (StaffParts.Prefix + "/audit", "staff audit", [StaffRole.Administrator]),
        (StaffParts.Prefix + "/me", "staff me", []),
    ];

    /// <summary>A page for who has signed in.</summary>
    internal static ReadOnlyMemory<byte> Write(SignedIn reader, string title, Action<HtmlWriter> body) => Write(reader.Words, title, reader, body);

    /// <summary>A page for who has not signed in yet.</summary>
    internal static ReadOnlyMemory<byte> Write(Words words, string title, Action<HtmlWriter> body) => Write(words, title, null, body);

    internal static ReadOnlyMemory<byte> WriteRefused(SignedIn reader) => Write(reader, reader.Words["staff refused heading"], html =>
        html.Element("h1"u8, reader.Words["staff refused heading"]).Element("p"u8, reader.Words["staff refused"]));

    static ReadOnlyMemory<byte> Write(Words words, string title, SignedIn? reader, Action<HtmlWriter> body)
    {
        var output = new ArrayBufferWriter<byte>(TypicalPageBytes);
        var html = new HtmlWriter(output);
        PageFrame.WriteHead(html, words, new PageState(title, null, HasQuestion: false), LookFile.StaffScript);
        html.Markup("<main id=\"main\" class=\"sheet\">"u8);
        PageFrame.WriteLetterHead(html, words);
        if (reader is not null)
            WriteWays(html, reader);
        if (reader is { Escalated: > 0 })
        {
            html.Markup("<p class=\"alarm\" role=\"alert\"><a href=\"/staff/desk\">"u8)
                .Text(words.Letter.Text("desk escalated", ("number", reader.Escalated.ToString(System.Globalization.CultureInfo.InvariantCulture)))).Markup("</a></p>"u8);
        }

        body(html);
        html.Markup("</main></body></html>"u8);
        return output.WrittenMemory;
    }

    static void WriteWays(HtmlWriter html, SignedIn reader)
    {
        html.Markup("<nav"u8).Attribute("aria-label"u8, reader.Words["staff ways"]).Markup("><ul class=\"desk\">"u8);
        foreach (var (address, label, roles) in Ways.Where(w => w.Roles.Length == 0 || w.Roles.Any(reader.Account.Has)))
            html.Markup("<li><a"u8).Attribute("href"u8, address).Markup(">"u8).Text(reader.Words[label]).Markup("</a></li>"u8);
        html.Markup("<li>"u8);
        StaffForm.Begin(html, StaffParts.Prefix + "/sign-out", reader.Token).Markup("<button class=\"link\">"u8)
            .Text(reader.Words.Letter.Text("staff sign out", ("who", reader.Account.ShownName))).Markup("</button></form></li></ul></nav>"u8);
    }
}
