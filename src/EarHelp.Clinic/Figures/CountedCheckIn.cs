using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Figures;

/// <summary>What came back on one day after a visit, once that day's question is over or answered.</summary>
public sealed record CountedCheckIn(int Day, CheckInResult Result)
{
    public static ImmutableArray<CountedCheckIn> Of(Edition edition, Visit visit, FollowUp followUp, Instant now)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return [.. CheckIn.After(edition, visit).Where(d => d.Until <= now || followUp.ReplyOf(d.Day) is not null)
            .Select(d => new CountedCheckIn(d.Day, followUp.ReplyOf(d.Day) switch { null => CheckInResult.Silent, { IsWell: true } => CheckInResult.Well, _ => CheckInResult.NotWell }))];
    }
}

public enum CheckInResult
{
    Well,
    NotWell,
    Silent,
}
