using System.Collections.Immutable;
using EarHelp.Triage.Answers;

namespace EarHelp.Triage.Asking;

/// <summary>What is to be asked next.</summary>
/// <param name="Screen">Id of the screen; <see cref="FormScreen"/> for the short form, which holds all facts that are asked in it.</param>
/// <param name="Ear">Null for a question about the person.</param>
/// <param name="Facts">Indexes of the facts that still matter, in order. The form asks all of its facts that are not yet answered.</param>
public sealed record ScreenToAsk(string Screen, QuestionKind Kind, Ear? Ear, ImmutableArray<int> Facts)
{
    public const string FormScreen = "form";
}

public enum QuestionKind
{
    /// <summary>One fact.</summary>
    OneFact,

    /// <summary>Several yes/no facts with an explicit "none of these".</summary>
    Checklist,

    /// <summary>The short form at the start: several facts of any kind.</summary>
    Form,
}
