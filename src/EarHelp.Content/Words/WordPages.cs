using System.Text.RegularExpressions;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;

namespace EarHelp.Content.Words;

/// <summary>The pages of one language, by what their words are.</summary>
sealed partial class WordPages
{
    public const string Questions = "questions", Advice = "advice", Warnings = "warnings", Explanations = "explanations", Outcomes = "outcomes",
        Destinations = "destinations", Reasons = "reasons", Holds = "holds", Signposts = "signposts", Interface = "interface", Pages = "pages",
        AdviceWords = "advice words", Answers = "answers", AnswerGroups = "answer groups", Glossary = "glossary", ReadingWaivers = "reading waivers",
        Phrases = "phrases", WordClasses = "word classes", Context = "context", Topics = "topics", Findings = "findings";

    static readonly string[] Kinds =
        [Questions, Advice, Warnings, Explanations, Outcomes, Destinations, Reasons, Holds, Signposts, Interface, Pages, AdviceWords, Answers, AnswerGroups, Glossary, ReadingWaivers, Phrases, WordClasses, Context, Topics, Findings];

    static readonly string[] Settings = ["words", "title", "owner", "reviewed on", "review by"];

    static readonly string[] SettingsOfAnswers = [.. Settings, "group", "applies to", "evidence"];

    readonly ILookup<string, Page> _pages;

    WordPages(string language, ILookup<string, Page> pages) => (Language, _pages) = (language, pages);

    public string Language { get; }

    /// <summary>The first file, in the order of their paths; null if none says what its words are.</summary>
    public Page? First => _pages.SelectMany(p => p).MinBy(p => p.Path, StringComparer.Ordinal);

    public IEnumerable<Page> Of(string kind) => _pages[kind];

    public IEnumerable<Section> SectionsOf(string kind, ProblemList problems) => _pages[kind].SelectMany(p => Section.Of(p, problems));

    public IEnumerable<PageTable> TablesOf(string kind) => _pages[kind].SelectMany(p => p.Tables);

    public static WordPages Sort(string language, IEnumerable<Page> pages, ProblemList problems)
    {
        var found = new List<(string Kind, Page Page)>();
        foreach (var page in pages.Where(p => !p.IsEmpty))
        {
            var kind = page.Settings.Find("words");
            KnownSettings.Report(page, kind?.Value == Answers ? SettingsOfAnswers : Settings, problems);
            if (kind is null)
                problems.Add(Codes.MissingSetting, page.Settings.Spot, "The file does not say what its words are.", $"Add the setting \"words:\" with one of: {string.Join(", ", Kinds)}.");
            else if (!Kinds.Contains(kind.Value))
                problems.AddUnknown(Codes.UnknownKindOfWords, kind.ValueSpot, "kind of words", kind.Value, Kinds);
            else
                found.Add((kind.Value, page));
        }

        return new WordPages(language, found.ToLookup(f => f.Kind, f => f.Page));
    }

    /// <summary>True for the name of a folder that is a language tag (BCP 47).</summary>
    public static bool IsLanguage(string folder) => Tag().IsMatch(folder);

    [GeneratedRegex("^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$", RegexOptions.CultureInvariant)]
    private static partial Regex Tag();
}
