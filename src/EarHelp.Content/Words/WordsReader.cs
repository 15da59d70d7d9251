using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads the words of one language.</summary>
sealed class WordsReader
{
    static readonly string[] KnownSettings = ["words", "title", "owner", "reviewed on", "review by"];

    static readonly string[] Kinds =
    [
        "questions", "advice", "warnings", "explanations", "outcomes", "destinations", "reasons", "holds", "signposts", "interface",
        "pages", "advice words",
    ];

    readonly string _language;
    readonly ImmutableArray<Page> _pages;
    readonly Dialog _dialog;
    readonly DialogDraft _draft;
    readonly ProblemList _problems;

    public WordsReader(string language, ImmutableArray<Page> pages, Dialog dialog, DialogDraft draft)
    {
        (_language, _pages, _dialog, _draft, _problems) = (language, pages, dialog, draft, draft.Problems);
        foreach (var page in pages)
        {
            SettingChecks.Report(page, KnownSettings, _problems);
            var kind = page.Find("words");
            if (kind is null || !Kinds.Contains(kind.Value, StringComparer.Ordinal))
            {
                var near = kind is null ? null : NearestName.To(kind.Value, Kinds);
                _problems.Add(
                    Codes.BadWordsKind,
                    kind?.Spot ?? page.Top,
                    kind is null ? "The page does not say what its words are." : $"\"{kind.Value}\" is no kind of words.",
                    (near is null ? string.Empty : $"Did you mean \"{near}\"? ") + $"Write \"words:\" with one of: {string.Join(", ", Kinds)}.");
            }
        }
    }

    public Wording Read(CompileOptions options)
    {
        var levels = _dialog.Levels.Select(l => (l.Id, l.Spot));
        var treats = _dialog.TreatRules.Where(t => t.Hold is not null).GroupBy(t => t.Hold!, StringComparer.Ordinal).Select(g => (g.Key, g.First().Spot));
        var warnings = _dialog.Warnings.Select(w => (w, _dialog.Rules.First(r => r.Warn.Contains(w)).Spot));
        var wording = new Wording(
            _language,
            new QuestionsReader(_dialog, _problems).Read(SectionsOf("questions"), _language),
            Proses("advice", "advice item", _dialog.Advice.Select(a => (a.Id, a.Spot))),
            Proses("warnings", "warning", warnings),
            Proses("explanations", "explanation", _dialog.Explanations.Select(e => (e.Id, e.Spot))),
            Outcomes([.. levels]),
            Proses("destinations", "destination", _dialog.Destinations.Select(d => (d.Id, d.Spot))),
            Reasons(),
            Proses("holds", "hold", treats),
            Pages(options.NeededPages),
            Interface(options.NeededTexts),
            Signposts());
        ProseChecks.Check(wording, AdviceWords(), _problems);
        return wording;
    }

    IEnumerable<Page> Of(string kind) => _pages.Where(p => p["words"] == kind);

    ImmutableArray<Section> SectionsOf(string kind) => [.. Of(kind).SelectMany(p => Section.Of(p))];

    FrozenDictionary<string, Prose> Proses(string kind, string what, IEnumerable<(string Id, SourceSpot Spot)> needed)
    {
        var sections = Unique(SectionsOf(kind));
        Match(needed, sections, what, kind);
        return sections.ToFrozenDictionary(s => s.Key, s => ProseReader.Read(s.Value.Passages, _problems), StringComparer.Ordinal);
    }

    /// <summary>Every needed name has words, and words belong to a name.</summary>
    void Match(IEnumerable<(string Id, SourceSpot Spot)> needed, Dictionary<string, Section> sections, string what, string kind)
    {
        var names = needed.ToArray();
        foreach (var (id, spot) in names.Where(n => !sections.TryGetValue(n.Id, out var s) || !s.Passages.Any()))
            _problems.Add(Codes.MissingWords, spot, $"The {what} \"{id}\" has no words in \"{_language}\".", $"Write a section \"## {id}\" in a page with \"words: {kind}\" in content/{_language}/.");
        foreach (var (id, section) in sections.Where(s => !names.Any(n => n.Id == s.Key)))
        {
            var near = NearestName.To(id, names.Select(n => n.Id));
            _problems.Add(Codes.WordsForNothing, section.Spot, $"There is no {what} \"{id}\".", near is null ? "Take the section out, or add the name to the dialogs." : $"Did you mean \"{near}\"?");
        }
    }

    Dictionary<string, Section> Unique(ImmutableArray<Section> sections)
    {
        var unique = new Dictionary<string, Section>(StringComparer.Ordinal);
        foreach (var section in sections.Where(s => !unique.TryAdd(s.Name, s)))
            _problems.Add(Codes.NameTaken, section.Spot, $"The section \"{section.Name}\" stands twice.", "Keep one of them.");
        return unique;
    }

    FrozenDictionary<string, OutcomeWords> Outcomes((string Id, SourceSpot Spot)[] levels)
    {
        var sections = Unique(SectionsOf("outcomes"));
        Match(levels, sections, "level", "outcomes");
        return sections.ToFrozenDictionary(s => s.Key, s => OutcomeOf(s.Value), StringComparer.Ordinal);
    }

    OutcomeWords OutcomeOf(Section section)
    {
        var parts = Section.Of(section.Parts, 3);
        return new OutcomeWords(
            ProseReader.Read(section.Opening, _problems),
            Part("What this means"),
            Part("What makes it more urgent"),
            Part("If nobody has answered"),
            Part("Who decides"));

        Prose Part(string title)
        {
            if (parts.FirstOrDefault(p => p.Name == title) is { } found && found.Passages.Any())
                return ProseReader.Read(found.Passages, _problems);
            _problems.Add(Codes.MissingLabel, section.Spot, $"The outcome \"{section.Name}\" has no part \"{title}\".", $"Write \"### {title}\" and the text below it.");
            return Prose.Empty;
        }
    }

    FrozenDictionary<string, Prose> Reasons()
    {
        var reasons = new Dictionary<string, Prose>(StringComparer.Ordinal);
        foreach (var row in TablesOf("reasons", "rule", "reason"))
        {
            var id = row.Cells[0].Text;
            if (!_dialog.Rules.Any(r => r.Id == id || r.Owner == id))
                _problems.Add(Codes.WordsForNothing, row.Cells[0].Spot, $"There is no rule \"{id}\".", "Take the row out, or mend the id.");
            if (!reasons.TryAdd(id, ProseReader.Read(row.Cells[1].Text, row.Cells[1].Spot, _problems)))
                _problems.Add(Codes.NameTaken, row.Cells[0].Spot, $"The reason of \"{id}\" stands twice.", "Keep one of them.");
        }

        foreach (var rule in _dialog.Rules.Where(r => r.Level is not null && !reasons.ContainsKey(r.Id) && !reasons.ContainsKey(r.Owner)))
            _problems.Add(Codes.MissingWords, rule.Spot, $"The rule \"{rule.Id}\" has no reason for the patient in \"{_language}\".", $"Add a row to a table \"rule, reason\" in a page with \"words: reasons\" in content/{_language}/.");
        return reasons.ToFrozenDictionary(StringComparer.Ordinal);
    }

    FrozenDictionary<string, Prose> Pages(ImmutableArray<string> needed)
    {
        var sections = Unique(SectionsOf("pages"));
        foreach (var page in needed.Where(p => !sections.ContainsKey(p)))
            _problems.Add(Codes.MissingPage, new($"content/{_language}/pages.md", 1, 1), $"The page \"{page}\" is missing.", $"Write a section \"## {page}\" in a page with \"words: pages\".");
        return sections.ToFrozenDictionary(s => s.Key, s => ProseReader.Read(s.Value.Passages, _problems), StringComparer.Ordinal);
    }

    FrozenDictionary<string, string> Interface(ImmutableArray<string> needed)
    {
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var row in TablesOf("interface", "text", "words").Where(r => !texts.TryAdd(r.Cells[0].Text, r.Cells[1].Text)))
            _problems.Add(Codes.NameTaken, row.Cells[0].Spot, $"The text \"{row.Cells[0].Text}\" stands twice.", "Keep one of them.");
        foreach (var key in needed.Where(k => !texts.ContainsKey(k)))
            _problems.Add(Codes.MissingInterfaceText, new($"content/{_language}/interface.md", 1, 1), $"The text \"{key}\" is missing.", "Add a row to a table \"text, words\".");
        return texts.ToFrozenDictionary(StringComparer.Ordinal);
    }

    ImmutableArray<Signpost> Signposts()
    {
        var signposts = ImmutableArray.CreateBuilder<Signpost>();
        foreach (var section in Unique(SectionsOf("signposts")).Values)
        {
            var said = section.Labelled("Said as");
            if (said is null)
                _problems.Add(Codes.MissingLabel, section.Spot, $"The signpost \"{section.Name}\" does not say how people say it.", "Write \"**Said as:** phrase, phrase\".");
            var fact = section.Labelled("Fact");
            var claims = fact is null ? [] : ConditionReader.ReadList(_draft, new Cell(fact.Source, fact.Spot));
            var text = section.Passages.Where(p => !p.Source.StartsWith("**Said as:**", StringComparison.Ordinal) && !p.Source.StartsWith("**Fact:**", StringComparison.Ordinal)).ToArray();
            if (text.Length == 0)
                _problems.Add(Codes.MissingWords, section.Spot, $"The signpost \"{section.Name}\" has no text.", "Write what is shown at once.");
            signposts.Add(new Signpost(section.Name, Phrases(said?.Source), claims, ProseReader.Read(text, _problems), section.Spot));
        }

        return signposts.ToImmutable();
    }

    ImmutableArray<string> AdviceWords() => [.. TablesOf("advice words", "word").Select(r => r.Cells[0].Text)];

    internal static ImmutableArray<string> Phrases(string? listed) =>
        listed is null ? [] : [.. listed.Split(',').Select(p => p.Replace('\n', ' ').Trim().ToLowerInvariant()).Where(p => p.Length > 0)];

    IEnumerable<Row> TablesOf(string kind, params string[] headings)
    {
        foreach (var table in Of(kind).SelectMany(p => p.Parts.OfType<PagePart.Table>()))
        {
            if (table.Headings.Select(h => h.Plain).SequenceEqual(headings, StringComparer.Ordinal))
            {
                foreach (var row in table.Rows)
                    yield return row;
            }
            else
            {
                _problems.Add(Codes.MissingColumn, table.Spot, "The table has other headings than are expected here.", $"Write the headings {string.Join(", ", headings)}.");
            }
        }
    }
}
