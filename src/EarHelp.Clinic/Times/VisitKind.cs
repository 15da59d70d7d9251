using EarHelp.Conversation.Replies;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>What a visit's length depends on. What is not known counts as the longer one.</summary>
/// <param name="BothEars">True also if it is not known which ear.</param>
/// <param name="First">True also if it is not known whether the person was here before.</param>
public readonly record struct VisitKind(bool BothEars, bool First)
{
    /// <summary>The fact that says which ears; the program knows it by name.</summary>
    /// <summary>The fact that says which ears are spoken about; known to the program.</summary>
    public const string EarsAffected = "ears affected";

    public static VisitKind Of(OutcomeTold told, bool beenBefore)
    {
        ArgumentNullException.ThrowIfNull(told);
        var ears = told.Answers.FirstOrDefault(a => a.Fact == EarsAffected)?.Value;
        return new VisitKind(BothEars: ears is not ("left" or "right"), First: !beenBefore);
    }

    public Duration LengthIn(VisitLengths lengths)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        return Duration.FromMinutes((BothEars ? lengths.BothEars : lengths.OneEar) + (First ? lengths.FirstVisitMore : 0));
    }
}
