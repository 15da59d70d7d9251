using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using NodaTime;

namespace EarHelp.Conversation.States;

/// <summary>Where a conversation stands: what folding its turns gives. Immutable and small; a kept one is only a shortcut.</summary>
/// <param name="Number">Number of the last turn.</param>
/// <param name="Hash">Hash of the last turn's record; empty while a turn is being decided.</param>
/// <param name="FirstAnswerAt">What is counted from a date counts over every moment from here to now.</param>
/// <param name="SecondWordingDue">Danger signs that got a first "not sure".</param>
/// <param name="Raised">Danger signs that were typed and are to be asked first.</param>
/// <param name="Doubted">Facts whose answers cannot stand together; each counts as "not sure" until it is answered again.</param>
/// <param name="Reached">By rank, most urgent first.</param>
/// <param name="Earlier">Answers that had led to the most urgent level and were changed since.</param>
/// <param name="NotUnderstood">How many messages in a row were not understood.</param>
/// <param name="Country">The country of the edition's list that was named last in a message, if it was one only; or null.</param>
/// <param name="Told">The outcome that was told last, or null.</param>
/// <param name="Floor">The outcome that may not become less urgent, since something has changed after it; or null.</param>
public sealed record ConversationState(
    string EditionId,
    string Language,
    int Number,
    string Hash,
    Instant? FirstAnswerAt,
    ImmutableArray<GivenAnswer> Answers,
    Pending? Pending,
    ImmutableArray<FactOfEar> SecondWordingDue,
    ImmutableArray<FactOfEar> Raised,
    ImmutableArray<FactOfEar> Doubted,
    ImmutableArray<LevelReached> Reached,
    ImmutableArray<GivenAnswer> Earlier,
    int NotUnderstood,
    OutcomeTold? Told,
    OutcomeTold? Floor,
    string? Country = null)
{
    /// <summary>What a clinician recorded of this person, as it stands now.</summary>
    public ImmutableArray<RecordedValue> Recorded { get; init; } = [];

    /// <summary>Which version of the record counts; 1: the one of the first turn, or none.</summary>
    public int RecordVersion { get; init; } = 1;

    /// <summary>What was typed and is no answer yet.</summary>
    public ImmutableArray<Heard> Heard { get; init; } = [];

    /// <summary>Whether clinicians may read what was not understood; null: not asked yet.</summary>
    public bool? SharesWords { get; init; }

    /// <summary>Name of the answer that was asked for and waits until all that it needs is known, or null.</summary>
    public string? About { get; init; }

    /// <summary>True while the outcome to which the answers lead is not told, because it is withdrawn.</summary>
    public bool IsWithheld { get; init; }

    /// <summary>True from the moment at which it goes on with another edition until the person was told.</summary>
    public bool IsMoved { get; init; }

    /// <summary>True once an outcome was told and nothing is open.</summary>
    public bool IsFinished => HasOutcome && Pending is null && !IsWithheld;

    /// <summary>True once an outcome was told, also while it is being changed: only what never came to one is swept away.</summary>
    public bool HasOutcome => Told is not null;

    public static ConversationState Begin(string editionId, string language) =>
        new(editionId, language, 0, string.Empty, null, [], null, [], [], [], [], [], 0, null, null);
}

/// <summary>What waits for an answer.</summary>
/// <param name="IsChange">True if the person asked to change an earlier answer, which counts until the new one is given.</param>
/// <param name="ReadBack">What was read in a message and waits to be confirmed; empty for a plain question.</param>
public sealed record Pending(Question Question, bool IsChange, ImmutableArray<ReadBack> ReadBack)
{
    /// <summary>What was written about as well, and is asked about directly after the read-back.</summary>
    public ImmutableArray<FactNamed> AskedNext { get; init; } = [];
}
