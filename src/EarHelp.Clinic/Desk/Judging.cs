using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Clinic.Desk;

/// <summary>Calling a request more or less urgent.</summary>
public static class Judging
{
    /// <summary>The desk may only call a request more urgent; a clinician may also call it less urgent.</summary>
    public static bool IsAllowed(StaffAccount account, Urgency now, Level level)
    {
        ArgumentNullException.ThrowIfNull(account);
        ArgumentNullException.ThrowIfNull(now);
        ArgumentNullException.ThrowIfNull(level);
        return level.Rank < now.Rank ? account.Has(StaffRole.Desk) || account.Has(StaffRole.Clinician) : level.Rank > now.Rank && account.Has(StaffRole.Clinician);
    }

    /// <summary>
    /// The limit of the level runs from now; a level that is more urgent never has a later limit than before. If nobody has answered when half of
    /// the time is over, the patient goes to the next place, as with every outcome.
    /// </summary>
    public static Judgement Of(Level level, Urgency before, string because, string by, Instant at, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(level);
        ArgumentNullException.ThrowIfNull(before);
        Instant? seenBy = level.Within is { } within ? Deadline.After(at, within, zone) : null;
        if (level.Rank < before.Rank && before.SeenBy is { } earlier && (seenBy is null || earlier < seenBy))
            seenBy = earlier;
        Instant? answerBy = seenBy is { } limit ? (limit > at ? at + ((limit - at) / 2) : limit) : null;
        return new Judgement(new Urgency(level.Id, level.Rank, seenBy, answerBy), because, by, at);
    }
}
