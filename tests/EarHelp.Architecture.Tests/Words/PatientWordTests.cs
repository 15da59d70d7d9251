using System.Text.RegularExpressions;
using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Words;

/// <summary>
/// No sentence that a patient reads is in code. Three rules, over everything on a patient's way:
/// a text of three or more words that starts with a capital; words between or inside tags of markup; the same in scripts.
/// Texts of exceptions, attributes, logs and the console are read by those who run the service, and are exempt.
/// </summary>
public sealed partial class PatientWordTests
{
    static readonly string[] OnThePatientsWay =
        ["EarHelp.Triage", "EarHelp.Understanding", "EarHelp.Conversation", "EarHelp.Clinic", "EarHelp.Storage", "EarHelp.Web"];

    /// <summary>Files whose texts go to an author, a programmer or an operator.</summary>
    static readonly (string Start, string Because)[] Exempt =
    [
        ("src/EarHelp.Triage/Cells/", "faults in a cell are told to its author"),
        ("src/EarHelp.Triage/Tables/", "faults in a table are told to its author"),
        ("src/EarHelp.Web/Signing/", "what is compared is told to the person who signs"),
        ("src/EarHelp.Storage/Moving/", "what is damaged in a store is told to who runs the service"),
        ("src/EarHelp.Web/Staff/FirstAccount.cs", "the code of the first account is printed for who runs the service"),
        ("src/EarHelp.Web/Systems/SystemProblem.cs", "what could not be answered is told to the programmer of a system"),
        ("src/EarHelp.Web/Bot/SentTurnReader.cs", "what could not be read is told to the programmer of a channel"),
    ];

    [Fact]
    public void No_code_on_the_patients_way_holds_a_sentence()
    {
        var sentences = Texts.Where(t => Sentence().IsMatch(t.Text)).Select(t => $"{t.Spot}: {t.Text}");

        Findings.None(sentences);
    }

    [Fact]
    public void No_markup_in_code_holds_words()
    {
        var worded = Texts.Where(t => WordsInMarkup().IsMatch(t.Text)).Select(t => $"{t.Spot}: {t.Text}");

        Findings.None(worded);
    }

    [Fact]
    public void No_script_or_sheet_holds_words()
    {
        var quoted = Repository.Files("src", "*.js").SelectMany(p => Found(p, Quoted()))
            .Concat(Repository.Files("src", "*.css").SelectMany(p => Found(p, GeneratedContent())))
            .Concat(Repository.Files("src", "*.svg").Concat(Repository.Files("src", "*.html")).SelectMany(p => Found(p, TextNode())));

        Findings.None(quoted.Where(q => Sentence().IsMatch(q.Text)));
    }

    [Fact]
    public void Every_exemption_is_still_needed()
    {
        var idle = Exempt.Where(e => !Repository.ProductCode.Any(f => f.Path.StartsWith(e.Start, StringComparison.Ordinal) && Literals.In(f).Any(t => !t.IsForThoseWhoRunIt && Sentence().IsMatch(t.Text))));

        Findings.None(idle);
    }

    [Theory]
    [InlineData("Please call the clinic", true)]
    [InlineData("… Nothing hurts me", true)]
    [InlineData("default-src 'none'; style-src 'self'", false)]
    [InlineData("Content-Type", false)]
    [InlineData("hearing changed on", false)]
    public void The_rule_knows_a_sentence(string text, bool isOne)
    {
        Assert.Equal(isOne, Sentence().IsMatch(text));
    }

    [Theory]
    [InlineData("<p>Call us</p>", true)]
    [InlineData("<button aria-label=\"Close\">", true)]
    [InlineData("<p class=\"why\">…</p>", false)]
    public void The_rule_knows_words_in_markup(string text, bool hasWords)
    {
        Assert.Equal(hasWords, WordsInMarkup().IsMatch(text));
    }

    static IEnumerable<Literal> Texts =>
        Repository.ProductCode.Where(f => OnThePatientsWay.Contains(f.Project))
            .Where(f => !Exempt.Any(e => f.Path.StartsWith(e.Start, StringComparison.Ordinal)))
            .SelectMany(Literals.In)
            .Where(t => !t.IsForThoseWhoRunIt);

    static IEnumerable<(string Path, string Text)> Found(string path, Regex pattern) =>
        pattern.Matches(WithoutRemarks(Repository.Read(path))).Select(m => (path, m.Groups["text"].Value.Trim()));

    static string WithoutRemarks(string text) => Remark().Replace(text, string.Empty);

    [GeneratedRegex(@"(^|[.!?…]\s)\s*\p{Lu}[\p{L}'’]*,?(\s+[\p{L}'’…]+[,.!?:;]?){2,}")]
    private static partial Regex Sentence();

    [GeneratedRegex("""<[a-z][^>]*>[^<>{}…]*\p{L}{2,}[^<>{}]*</|<[a-z][^>]*(aria-label|title|alt|placeholder)=["'][^"'{…]*\p{L}{2,}""")]
    private static partial Regex WordsInMarkup();

    [GeneratedRegex("""(?<mark>["'`])(?<text>(?:\\.|(?!\k<mark>)[^\\\n])*)\k<mark>""")]
    private static partial Regex Quoted();

    [GeneratedRegex("""content:\s*["'](?<text>[^"']*)["']""")]
    private static partial Regex GeneratedContent();

    [GeneratedRegex(@">(?<text>[^<>{}]+)<")]
    private static partial Regex TextNode();

    [GeneratedRegex(@"/\*.*?\*/|(?<=^|\s)//[^\n]*|<!--.*?-->", RegexOptions.Singleline)]
    private static partial Regex Remark();
}
