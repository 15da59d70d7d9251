using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.ReadingLevels;

/// <summary>One text of a language, as it is read: blanks as short words, the form for people who write about themselves.</summary>
/// <param name="Name">Its kind and name, e.g. <c>advice: keep the ear dry</c>.</param>
public sealed record ReadText(string Name, SourceSpot Spot, ImmutableArray<string> Lines)
{
    public TextCounts Counts { get; } = TextCounts.Of(Lines);

    public double Grade => ReadingScores.FleschKincaidGrade(Counts);

    /// <summary>Every text that a patient reads, except the very short ones of the pages.</summary>
    public static ImmutableArray<ReadText> AllOf(Wording wording)
    {
        ArgumentNullException.ThrowIfNull(wording);
        return
        [
            .. wording.Questions.Values.SelectMany(OfQuestion)
                .Concat(Of("advice", wording.Advice)).Concat(Of("warning", wording.Warnings)).Concat(Of("explanation", wording.Explanations))
                .Concat(wording.Outcomes.Select(o => Of($"outcome: {o.Key}", o.Value.Headline, o.Value.Meaning, o.Value.MoreUrgent, o.Value.IfNobodyAnswered, o.Value.WhoDecides)))
                .Concat(Of("destination", wording.Destinations)).Concat(Of("reason", wording.Reasons)).Concat(Of("hold", wording.Holds)).Concat(Of("page", wording.Pages))
                .Concat(wording.Findings.Select(f => Of($"finding: {f.Key}", f.Value.Told)))
                .Concat(wording.Signposts.Select(s => Of($"signpost: {s.Id}", s.Text)))
                .Concat(wording.Answers.Values.Select(a => Of($"answer: {a.Id}", a.Text, a.Next)))
                .Concat(wording.Glossary.Select(g => Of($"glossary: {g.PlainWords.FirstOrDefault()}", g.Meaning)))
                .Where(t => t.Counts.Words > 0)
                .OrderBy(t => t.Spot.File, StringComparer.Ordinal).ThenBy(t => t.Spot.Line).ThenBy(t => t.Name, StringComparer.Ordinal),
        ];
    }

    static IEnumerable<ReadText> OfQuestion(QuestionWords question) =>
    [
        Of($"question: {question.Screen}", question.Ask, question.Why, question.Note, question.Again),
        .. question.Entries.Select(e => Of($"question: {question.Screen}, {e.InBrief}", e.Label, e.Again)),
    ];

    static IEnumerable<ReadText> Of(string kind, IEnumerable<KeyValuePair<string, Prose>> texts) => texts.Select(t => Of($"{kind}: {t.Key}", t.Value));

    static ReadText Of(string name, params ImmutableArray<Prose> texts) =>
        new(name, texts.First(t => !t.IsEmpty || t == texts[^1]).Spot, [.. texts.Where(t => !t.IsEmpty).SelectMany(t => t.Blocks).SelectMany(b => b.Lines.Select(Line))]);

    static string Line(ImmutableArray<Inline> inlines) => string.Concat(inlines.Select(i => i switch
    {
        Inline.Run run => run.Text,
        Inline.Link link => link.Text,
        Inline.Blank => "it",
        Inline.Either either => either.Self,
        _ => throw new System.Diagnostics.UnreachableException(),
    }));
}
