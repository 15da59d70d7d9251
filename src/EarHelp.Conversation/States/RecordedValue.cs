using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.States;

/// <summary>What a clinician recorded of one fact. Beside another answer of the person both may be true, so the worse of the two counts.</summary>
/// <param name="Until">From then on it counts no more; null: it counts for good.</param>
public readonly record struct RecordedValue(FactOfEar Of, ValueSet Set, Instant? Until);

static class RecordedValues
{
    /// <summary>All that is recorded of a fact; of an ear that is not known, what is recorded of any. Null if nothing is.</summary>
    public static ValueSet? Find(this ImmutableArray<RecordedValue> recorded, FactOfEar of)
    {
        ValueSet? found = null;
        foreach (var value in recorded)
        {
            if (value.Of.Fact == of.Fact && (value.Of.Ear is null || value.Of.Ear == of.Ear || of.Ear == Ear.Either))
                found = found is null ? value.Set : found.Union(value.Set);
        }

        return found;
    }

    /// <summary>What a clinician recorded and what the person said, as one.</summary>
    /// <param name="said">Null: nothing was said.</param>
    public static Said With(ValueSet recorded, Said? said) => said switch
    {
        null => new Said.Values(recorded),
        Said.Values values => new Said.Values(values.Set.Union(recorded)),
        _ => said,
    };
}
