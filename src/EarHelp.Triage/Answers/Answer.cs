using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Answers;

/// <summary>What is known of one fact. "Not asked" and "unsure" are never "no".</summary>
public abstract record Answer
{
    Answer()
    {
    }

    public static Answer Unknown { get; } = new NotAsked();

    public static Answer DoesNotApply { get; } = new NotApplicable();

    public sealed record NotAsked : Answer;

    public sealed record NotApplicable : Answer;

    /// <param name="MayBe">The values that may still be true: one is known, all are unsure. Never empty.</param>
    public sealed record Asked(ValueSet MayBe) : Answer;
}
