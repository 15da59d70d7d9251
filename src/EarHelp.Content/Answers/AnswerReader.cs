using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Words;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Answers;

/// <summary>Reads the pages that answer what people ask.</summary>
sealed class AnswerReader(CompiledDialog compiled, WordPages pages, AdviceWords adviceWords, TermCheck terms, AnswerGroups groups, ProblemList problems)
{
    /// <summary>An answer that reads well aloud has fewer words than this.</summary>
    const int TooManyWords = 120;

    const int WordingsAtLeast = 3;

    const string AskedAs = "Asked as", NeedsFirst = "Needs first", NeverIf = "Never if", Advice = "Advice", Next = "Next", Text = "";

    static readonly string[] Labels = [AskedAs, NeedsFirst, NeverIf, Advice, Next];

    readonly Dictionary<string, string> _askedOf = new(StringComparer.Ordinal);

    public FrozenDictionary<string, AnswerPage> Read()
    {
        var names = new NameList("answer", problems);
        var answers = new Dictionary<string, AnswerPage>(StringComparer.Ordinal);
        foreach (var page in pages.Of(WordPages.Answers))
        {
            var (title, review) = ReviewReader.Read(page, compiled.Sources, problems);
            var group = groups.Of(page);
            foreach (var section in Section.Of(page, problems).Where(s => names.Add(s.Name, s.Spot)))
                answers.Add(section.Name, Read(section, title, group, review));
        }

        return answers.ToFrozenDictionary(StringComparer.Ordinal);
    }

    AnswerPage Read(Section section, string title, string group, PageReview review)
    {
        foreach (var table in section.Tables)
            problems.Add(Codes.UnsupportedMarkdown, table.Spot, "A table stands in an answer.", "Write paragraphs and lists.");
        var parts = LabelledParts.Read(section, new ProseReader(section.Page.Source, BlankNames.InAnyText, problems), Labels, Text, problems);
        foreach (var label in Labels.Where(l => parts.LineOf(l) is null or ""))
            problems.Add(Codes.MissingPart, section.Spot, $"The answer \"{section.Name}\" has no \"{label}:\".", $"Add a paragraph **{label}:**, with a - if there is nothing to name.");
        if (parts.Of(Text).IsEmpty)
            problems.Add(Codes.MissingPart, section.Spot, $"The answer \"{section.Name}\" has no text.", "Add a paragraph below its labels.");

        var never = compiled.Conditions.ReadList(Cell(parts, NeverIf));
        var advice = ReadAdvice(Cell(parts, Advice));
        var answer = new AnswerPage(section.Name, title, ReadWordings(section, parts),
            new NeededFacts(compiled.Dialog).Of([.. ReadNeeds(parts), .. never.Select(c => c.Of), .. GatesOf(advice)]),
            never, parts.Of(Text), advice, parts.Of(Next), review, section.Spot)
        { Group = group };
        Hold(answer, section);
        return answer;
    }

    void Hold(AnswerPage answer, Section section)
    {
        var words = WordsOf(answer.Text);
        if (words >= TooManyWords)
            problems.Add(Codes.AnswerTooLong, section.Spot, $"The answer \"{section.Name}\" has {words} words.", $"Write fewer than {TooManyWords}: one thought less, or a page of its own for it.");
        TwinCheck.Report([answer.Text, answer.Next], section.Spot, problems);
        foreach (var prose in new[] { answer.Text, answer.Next })
            adviceWords.Report(WordPages.Answers, prose, new WordSpots(section.Page.Source, section.Spot).Find, problems);
        terms.Report(answer, new WordSpots(section.Page.Source, section.Spot).Find, problems);
    }

    ImmutableArray<string> ReadWordings(Section section, LabelledParts parts)
    {
        var wordings = SaidAs.Read(parts.LineOf(AskedAs) ?? "");
        if (wordings.Length is > 0 and < WordingsAtLeast)
            problems.Add(Codes.TooFewWordings, section.Spot, $"The answer \"{section.Name}\" is asked for in too few ways.", $"Write at least {WordingsAtLeast} ways in which people ask it, with commas between.");
        foreach (var wording in wordings.Where(w => !_askedOf.TryAdd(w, section.Name)))
            problems.Add(Codes.WordingTwice, section.Spot, $"\"{wording}\" asks for two answers: \"{_askedOf[wording]}\" and \"{section.Name}\".", "Keep it where it fits best.");
        return wordings;
    }

    IEnumerable<FactReference> ReadNeeds(LabelledParts parts)
    {
        var cell = Cell(parts, NeedsFirst);
        foreach (var (text, spot) in cell.IsNothing ? [] : cell.SplitAt(','))
        {
            if (compiled.Scope.Find(text) is { } found)
                yield return found.Of;
            else if (compiled.Scope.FindDate(text) is { } date)
                yield return new FactReference(false, date.Index);
            else
                problems.AddUnknown(Codes.UnknownName, spot, "fact", text, compiled.Scope.Names);
        }
    }

    ImmutableArray<int> ReadAdvice(PageCell cell) => new NameIndex("advice item", compiled.Dialog.Advice.Select(a => a.Id), problems).FindAll(cell);

    /// <summary>What an item to do rests on: it is given only if all of that was asked.</summary>
    IEnumerable<FactReference> GatesOf(ImmutableArray<int> advice) =>
        advice.Select(a => compiled.Dialog.Advice[a]).Where(a => a.Kind == AdviceKind.ToDo).SelectMany(a => a.OnlyIf.Concat(a.NeverIf)).Select(c => c.Of);

    static PageCell Cell(LabelledParts parts, string label) => new(parts.LineOf(label) ?? "", 0, parts.Of(label).Spot);

    static int WordsOf(Prose prose) => prose.Blocks.SelectMany(PlainWords.Lines)
        .Sum(l => l.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Count(w => w.Any(char.IsLetterOrDigit)));
}
