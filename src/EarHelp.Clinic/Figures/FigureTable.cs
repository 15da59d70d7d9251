using System.Collections.Immutable;

namespace EarHelp.Clinic.Figures;

/// <summary>Counts of one kind in one month. Names are those of the edition; the page has the words.</summary>
/// <param name="Columns">At least one.</param>
public sealed record FigureTable(FigureKind Kind, ImmutableArray<string> Columns, ImmutableArray<FigureRow> Rows);

/// <param name="Of">What a value belongs to, or null: the name says it all.</param>
/// <param name="Name">A level, a screen, a fact, a value …; as <see cref="FigureKind"/> says.</param>
/// <param name="Counts">One for each column.</param>
public sealed record FigureRow(string? Of, string Name, ImmutableArray<ShownCount> Counts);

public enum FigureKind
{
    /// <summary>How many conversations of which kind.</summary>
    Conversations,

    /// <summary>By the level that was told last, the most urgent first.</summary>
    Outcomes,

    /// <summary>Requests that stand by level, and when they were answered in their time.</summary>
    AnswerTimes,

    /// <summary>By the screen that was open when nobody came back.</summary>
    Stops,

    /// <summary>By fact: conversations in which it was answered "not sure".</summary>
    NotSure,

    /// <summary>By the answer that came nearest: conversations with a question for which none was found.</summary>
    NotFound,

    /// <summary>By fact and value: the answers that the clinic counts, among those it counts them among.</summary>
    Answers,

    /// <summary>By the day after the visit on which the patient was asked how it is, and what came back; by the month of the visit.</summary>
    CheckIns,
}
