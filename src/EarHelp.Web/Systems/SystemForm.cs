using EarHelp.Clinic.Staff;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Systems;

/// <summary>The parts of the pages of accounts that are about systems.</summary>
static class SystemForm
{
    internal const string Name = "system";

    internal const string Address = StaffParts.Prefix + "/systems";

    internal static void WriteNew(HtmlWriter html, SignedIn reader)
    {
        var words = reader.Words;
        html.Markup("<h2>"u8).Text(words["system heading"]).Markup("</h2><p>"u8).Text(words["system hint"]).Markup("</p>"u8);
        StaffForm.Begin(html, Address, reader.Token);
        StaffForm.WriteLine(html, words, Name, "system name", "text", "off");
        StaffForm.End(html, words, "system button");
    }

    internal static void WriteEnd(HtmlWriter html, SignedIn reader, StaffAccount system)
    {
        html.Element("p"u8, reader.Words["system end"]);
        StaffForm.Begin(html, $"{Address}/{system.Id}/end", reader.Token);
        StaffForm.End(html, reader.Words, "system end button");
    }
}
