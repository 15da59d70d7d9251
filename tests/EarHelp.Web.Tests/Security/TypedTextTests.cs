using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Security;

/// <summary>What a person types is text wherever it is shown. The attacks are common ones, from memory.</summary>
[Collection(OneService.Name)]
public sealed partial class TypedTextTests(SharedService service)
{
    public static TheoryData<string> Attacks =>
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "<svg/onload=alert(1)>",
        "\"><script>alert(1)</script>",
        "' onfocus=alert(1) autofocus='",
        "</textarea><script>alert(1)</script>",
        "</bdi></p><iframe src=javascript:alert(1)>",
        "[click](javascript:alert(1)) **bold** `code`",
        "<!--<script>alert(1)//-->",
        "{{constructor.constructor('alert(1)')()}} ${alert(1)} {you|they}",
        "\u202Egnirrah \u001b[31m <b>",
        "<math><mtext></form><form><mglyph><style></math><img src onerror=alert(1)>",
    ];

    [Theory]
    [MemberData(nameof(Attacks))]
    public async Task Stays_text_in_the_letter(string attack)
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.BeginAsync(attack);

        AssertNoMarkupFrom(page.Html);
        Assert.Contains(attack.Split(' ', '<', '"', '\'')[^1].TrimEnd('>'), page.Text);
    }

    [Theory]
    [MemberData(nameof(Attacks))]
    public async Task Stays_text_in_a_form_that_has_to_be_mended(string attack)
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.AnswerAsync(await patient.ReadAsync("/"), ("n:age", attack), ("text", attack));

        Assert.Equal(422, (int)page.Status);
        AssertNoMarkupFrom(page.Html);
    }

    static void AssertNoMarkupFrom(string html)
    {
        Assert.DoesNotMatch(Handler(), Quoted().Replace(html, "\"\""));
        Assert.DoesNotContain("<iframe", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img", html, StringComparison.OrdinalIgnoreCase);
        Assert.Single(Script().Matches(html));
    }

    /// <summary>An event handler inside a tag.</summary>
    [GeneratedRegex("<[^>]*\\son[a-z]+\\s*=", RegexOptions.IgnoreCase)]
    private static partial Regex Handler();

    [GeneratedRegex("\"[^\"<>]*\"")]
    private static partial Regex Quoted();

    [GeneratedRegex("<script", RegexOptions.IgnoreCase)]
    private static partial Regex Script();
}
