using System.Collections.Immutable;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Staff;

/// <summary>The parts of which forms of staff are made.</summary>
static class StaffForm
{
    internal const string Token = "token";
    internal const string Code = "code";
    internal const string Name = "name";
    internal const string Password = "password";
    internal const string Roles = "roles";
    internal const string Credential = "credential";

    internal const int LongestLine = 100;

    /// <summary>Each role that a person may have, with its name in forms and the key of its words.</summary>
    internal static ImmutableArray<(StaffRole Role, string Value, string Words)> AllRoles { get; } =
    [
        (StaffRole.Desk, "desk", "staff role desk"),
        (StaffRole.Clinician, "clinician", "staff role clinician"),
        (StaffRole.Author, "author", "staff role author"),
        (StaffRole.Approver, "approver", "staff role approver"),
        (StaffRole.Administrator, "administrator", "staff role administrator"),
    ];

    internal static ImmutableArray<StaffRole> ReadRoles(IFormCollection fields) =>
        [.. AllRoles.Where(r => fields[Roles].Contains(r.Value)).Select(r => r.Role)];

    /// <summary>A short text with the numbers that staff must keep to.</summary>
    internal static string Rule(Words words, string key) => words.Letter.Text(
        key, ("tries", Written(StaffParts.MostFailures)), ("minutes", Written(StaffParts.LockedMinutes)), ("letters", Written(StaffParts.ShortestPassword)));

    internal static string WordsOf(Words words, IReadOnlyCollection<StaffRole> roles) =>
        roles.Contains(StaffRole.System) ? words["staff role system"] : string.Join(", ", AllRoles.Where(r => roles.Contains(r.Role)).Select(r => words[r.Words]));

    internal static HtmlWriter Begin(HtmlWriter html, string action, string token) =>
        html.Markup("<form method=\"post\""u8).Attribute("action"u8, action).Markup("><input type=\"hidden\" name=\"token\""u8).Attribute("value"u8, token).Markup(">"u8);

    /// <param name="type">Of the input: text or password.</param>
    /// <param name="hint">Key of the words under the label, or null.</param>
    internal static void WriteLine(HtmlWriter html, Words words, string field, string label, string type, string autocomplete, string value = "", string? hint = null)
    {
        html.Markup("<div class=\"own\"><label"u8).Attribute("for"u8, field).Markup(">"u8).Text(words[label]).Markup("</label>"u8);
        if (hint is not null)
            html.Markup("<p class=\"hint\""u8).Attribute("id"u8, field + "-hint").Markup(">"u8).Text(Rule(words, hint)).Markup("</p>"u8);
        html.Markup("<input"u8).Attribute("type"u8, type).Attribute("id"u8, field).Attribute("name"u8, field).Attribute("autocomplete"u8, autocomplete)
            .Attribute("value"u8, value).Attribute("aria-describedby"u8, hint is null ? null : field + "-hint")
            .Markup(" autocapitalize=\"none\" spellcheck=\"false\" maxlength=\""u8).Number(LongestLine).Markup("\"></div>"u8);
    }

    /// <summary>Several lines of text.</summary>
    internal static void WriteText(HtmlWriter html, Words words, string field, string label, string hint, int longest, string value = "")
    {
        html.Markup("<div class=\"own\"><label"u8).Attribute("for"u8, field).Markup(">"u8).Text(words[label]).Markup("</label><p class=\"hint\""u8)
            .Attribute("id"u8, field + "-hint").Markup(">"u8).Text(words[hint]).Markup("</p><textarea rows=\"3\" autocomplete=\"off\""u8).Attribute("id"u8, field)
            .Attribute("name"u8, field).Attribute("aria-describedby"u8, field + "-hint").Markup(" maxlength=\""u8).Number(longest).Markup("\">"u8).Text(value).Markup("</textarea></div>"u8);
    }

    internal static void WriteRoles(HtmlWriter html, Words words, ImmutableArray<StaffRole> given)
    {
        html.Markup("<fieldset><legend>"u8).Text(words["staff roles"]).Markup("</legend><ul class=\"choices\">"u8);
        foreach (var (role, value, label) in AllRoles)
        {
            html.Markup("<li><label class=\"pick\"><input type=\"checkbox\" name=\"roles\""u8).Attribute("value"u8, value)
                .Markup(given.Contains(role) ? " checked><span>"u8 : "><span>"u8).Text(words[label]).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul></fieldset>"u8);
    }

    /// <summary>What is wrong with what was sent; nothing if nothing is.</summary>
    internal static void WriteFault(HtmlWriter html, Words words, string? fault)
    {
        if (fault is not null)
            html.Markup("<p class=\"fault\" id=\"faults\" role=\"alert\" tabindex=\"-1\">"u8).Text(Rule(words, fault)).Markup("</p>"u8);
    }

    internal static HtmlWriter End(HtmlWriter html, Words words, string button) =>
        html.Markup("<p><button>"u8).Text(words[button]).Markup("</button></p></form>"u8);

    static string Written(int number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>One line without what cannot be seen, cut to its length.</summary>
    internal static string ReadLine(string? written, int longest = LongestLine)
    {
        var line = new string([.. (written ?? string.Empty).Select(c => char.IsControl(c) ? ' ' : c)]).Trim();
        return line.Length <= longest ? line : line[..longest];
    }
}
