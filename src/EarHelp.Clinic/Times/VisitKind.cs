using EarHelp.Conversation.Replies;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>What a visit's length depends on. What is not known counts as the longer one.</summary>
/// <param name="BothEars">True also if it is not known which ear.</param>
/// <param name="First">True also if it is not known whether the person was here before.</param>
public readonly record struct VisitKind(bool BothEars, bool First)
{
    public static VisitKind Of(OutcomeTold told, bool beenBefore)
    {
        ArgumentNullException.ThrowIfNull(told);
        var ears = told.Answers.FirstOrDefault(a => a.Fact == KnownFacts.EarsAffected)?.Value;
        return new VisitKind(BothEars: ears is not ("left" or "right"), First: !beenBefore);
    }

    public Duration LengthIn(VisitLengths lengths)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        return Duration.FromMinutes((BothEars ? lengths.BothEars : lengths.OneEar) + (First ? lengths.FirstVisitMore : 0));
    }
}
