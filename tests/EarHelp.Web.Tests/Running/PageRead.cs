using System.Net;
using System.Text.RegularExpressions;

namespace EarHelp.Web.Tests.Running;

/// <summary>A page as a browser without JavaScript has it.</summary>
public sealed partial record PageRead(HttpStatusCode Status, Uri Address, string Html, HttpResponseMessage Response)
{
    public string Title => WebUtility.HtmlDecode(TitleTag().Match(Html).Groups["text"].Value);

    /// <summary>The question of now, or empty.</summary>
    public string Now => Question().Match(Html).Value;

    public bool IsPlan => Html.Contains("id=\"plan\"", StringComparison.Ordinal);

    /// <summary>What a person reads, without any markup.</summary>
    public string Text => Blanks().Replace(WebUtility.HtmlDecode(Tag().Replace(Html, " ")), " ");

    /// <summary>All fields of the question of now: hidden ones with their values, the others with what could be chosen.</summary>
    public IReadOnlyList<(string Name, string Type, string Value)> Fields =>
    [
        .. Input().Matches(Now).Select(m => (AttributeOf(m.Value, "name"), AttributeOf(m.Value, "type"), AttributeOf(m.Value, "value"))),
    ];

    public IEnumerable<KeyValuePair<string, string>> Hidden =>
        Fields.Where(f => f.Type == "hidden").DistinctBy(f => f.Name).Select(f => KeyValuePair.Create(f.Name, f.Value));

    public string Screen => Fields.FirstOrDefault(f => f.Name == "screen").Value ?? string.Empty;

    /// <summary>The hidden fields of the first form that posts to an address.</summary>
    public Dictionary<string, string> FormTo(string address)
    {
        var form = Regex.Match(Html, $"<form method=\"post\" action=\"{Regex.Escape(address)}\".*?</form>", RegexOptions.Singleline).Value;
        return Input().Matches(form).Where(m => AttributeOf(m.Value, "type") == "hidden")
            .ToDictionary(m => AttributeOf(m.Value, "name"), m => AttributeOf(m.Value, "value"));
    }

    static string AttributeOf(string tag, string name) =>
        WebUtility.HtmlDecode(Regex.Match(tag, $" {name}=\"(?<value>[^\"]*)\"").Groups["value"].Value);

    [GeneratedRegex("<title>(?<text>.*?)</title>")]
    private static partial Regex TitleTag();

    [GeneratedRegex("<section class=\"ask\".*?</section>", RegexOptions.Singleline)]
    private static partial Regex Question();

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Input();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex("\\s+")]
    private static partial Regex Blanks();
}
