using System.Collections.Immutable;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Triage.Editions;

/// <summary>A page that answers a question people ask. It explains; what to do stands in advice items, each with its own gate.</summary>
/// <param name="Title">The question in its plainest words.</param>
/// <param name="AskedAs">Other wordings, lower case.</param>
/// <param name="Needs">What must be asked before the page is shown, as indexes of facts in asking order: every red flag of the
/// safety screens, what the page names, and what its conditions rest on.</param>
/// <param name="NeverIf">Each one forbids the page; a missing answer forbids it too.</param>
/// <param name="Advice">Indexes of advice items, in the order of the page.</param>
/// <param name="Next">What comes next.</param>
public sealed record AnswerPage(
    string Id,
    string Title,
    ImmutableArray<string> AskedAs,
    ImmutableArray<int> Needs,
    ImmutableArray<Condition> NeverIf,
    Prose Text,
    ImmutableArray<int> Advice,
    Prose Next,
    PageReview Review,
    SourceSpot Spot)
{
    /// <summary>The heading under which it stands among all pages, one of <see cref="Wording.AnswerGroups"/>.</summary>
    public required string Group { get; init; }
}

/// <summary>Who answers for a page, and until when.</summary>
/// <param name="ReviewBy">The last day on which the page counts as reviewed.</param>
/// <param name="AppliesTo">Whom the page is for, in a clinician's words.</param>
/// <param name="Sources">Ids of sources, "common practice" or "from memory".</param>
public sealed record PageReview(string Owner, LocalDate ReviewedOn, LocalDate ReviewBy, string AppliesTo, ImmutableArray<string> Sources)
{
    public bool IsPast(LocalDate day) => day > ReviewBy;
}

/// <summary>Plain words for what clinicians call otherwise.</summary>
/// <param name="PlainWords">As the pages say it; the first one is the usual one.</param>
/// <param name="Terms">Medical words for the same; may be empty.</param>
public sealed record GlossaryEntry(ImmutableArray<string> PlainWords, ImmutableArray<string> Terms, Prose Meaning, SourceSpot Spot);
