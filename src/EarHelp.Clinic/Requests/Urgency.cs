using EarHelp.Conversation.Replies;
using NodaTime;

namespace EarHelp.Clinic.Requests;

/// <summary>How soon someone should look, as the patient was told.</summary>
/// <param name="Level">The level's id.</param>
/// <param name="Rank">0 is the most urgent.</param>
/// <param name="SeenBy">The limit, or null: none.</param>
/// <param name="AnswerBy">From then on the patient goes to the next place; null without a limit.</param>
public sealed record Urgency(string Level, int Rank, Instant? SeenBy, Instant? AnswerBy)
{
    public static Urgency Of(OutcomeTold told)
    {
        ArgumentNullException.ThrowIfNull(told);
        return new Urgency(told.Level, told.Rank, told.SeenBy, told.AnswerBy);
    }

    /// <summary>The more urgent level with the earlier of both limits: what was told before never becomes less by itself.</summary>
    public Urgency OrWorse(Urgency other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var worse = other.Rank < Rank ? other : this;
        return worse with { SeenBy = Earlier(SeenBy, other.SeenBy), AnswerBy = Earlier(AnswerBy, other.AnswerBy) };
    }

    static Instant? Earlier(Instant? one, Instant? other) =>
        one is { } a && other is { } b ? Instant.Min(a, b) : one ?? other;
}
