using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Editions;

/// <summary>Every word of one language. Keys are the names that authors gave; a missing key is a fault found when compiling.</summary>
/// <param name="Language">A BCP 47 tag, the name of the folder.</param>
/// <param name="Questions">By screen.</param>
/// <param name="Advice">By advice item: the first block is its headline.</param>
/// <param name="Outcomes">By level.</param>
/// <param name="Reasons">By rule (of the row, else of its owner).</param>
/// <param name="Holds">By the words after "not until".</param>
/// <param name="Interface">Short texts by key; they may hold blanks in braces.</param>
/// <param name="Answers">By the page's name.</param>
/// <param name="Glossary">In reading order.</param>
public sealed record Wording(
    string Language,
    FrozenDictionary<string, QuestionWords> Questions,
    FrozenDictionary<string, Prose> Advice,
    FrozenDictionary<string, Prose> Warnings,
    FrozenDictionary<string, Prose> Explanations,
    FrozenDictionary<string, OutcomeWords> Outcomes,
    FrozenDictionary<string, Prose> Destinations,
    FrozenDictionary<string, Prose> Reasons,
    FrozenDictionary<string, Prose> Holds,
    FrozenDictionary<string, Prose> Pages,
    FrozenDictionary<string, string> Interface,
    ImmutableArray<Signpost> Signposts,
    FrozenDictionary<string, AnswerPage> Answers,
    ImmutableArray<GlossaryEntry> Glossary)
{
    /// <summary>The headings under which the answers stand, in reading order.</summary>
    public ImmutableArray<string> AnswerGroups { get; init; } = [];

    /// <summary>How people say things in messages of their own.</summary>
    public Speech Speech { get; init; } = Speech.None;

    /// <summary>By finding.</summary>
    public FrozenDictionary<string, FindingWords> Findings { get; init; } = FrozenDictionary<string, FindingWords>.Empty;
}

/// <summary>The words of a finding.</summary>
/// <param name="Form">What staff tick.</param>
/// <param name="Told">What the patient reads of it.</param>
public sealed record FindingWords(string Form, Prose Told, SourceSpot Spot);

/// <summary>The words of one screen.</summary>
/// <param name="Again">The second wording of a single fact, or empty.</param>
/// <param name="None">The words of "none of these" on a checklist, or null.</param>
/// <param name="InBrief">Names the answer in summaries.</param>
/// <param name="Options">Of a single fact; empty: a number or a date is typed in, a yes/no fact uses the interface's words.</param>
/// <param name="Entries">Of a checklist, one a fact.</param>
public sealed record QuestionWords(
    string Screen,
    Prose Ask,
    Prose Why,
    Prose Note,
    Prose Again,
    string? None,
    string InBrief,
    ImmutableArray<OptionWords> Options,
    ImmutableArray<EntryWords> Entries,
    SourceSpot Spot);

/// <param name="Values">What choosing it says may be true: one value, or a range.</param>
/// <param name="Label">What the person reads.</param>
/// <param name="SaidAs">How people say it, lower case.</param>
public sealed record OptionWords(ValueSet Values, string Label, ImmutableArray<string> SaidAs, SourceSpot Spot);

/// <param name="Fact">Index of the yes/no fact.</param>
/// <param name="Again">The second wording, or empty.</param>
public sealed record EntryWords(int Fact, Prose Label, Prose Again, string InBrief, ImmutableArray<string> SaidAs, SourceSpot Spot)
{
    /// <summary>Where on the ear's drawing it is felt or seen, one of <see cref="EarPlaces"/>; empty: at no single place.</summary>
    public string Place { get; init; } = string.Empty;
}

/// <summary>The words of an outcome, by what the section says.</summary>
public sealed record OutcomeWords(Prose Headline, Prose Meaning, Prose MoreUrgent, Prose IfNobodyAnswered, Prose WhoDecides);

/// <summary>An emergency recognised in what is typed.</summary>
/// <param name="Claims">What it says about facts; may be empty.</param>
public sealed record Signpost(string Id, ImmutableArray<string> SaidAs, ImmutableArray<Rules.Condition> Claims, Prose Text, SourceSpot Spot);
