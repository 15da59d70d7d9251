using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>What patients answer to check-ins, and stopping the messages. Each is kept before it is told.</summary>
public sealed class CheckInAnswers(IFollowUps followUps, IVisitStore visits, TimeProvider clock)
{
    /// <summary>To the millisecond, as it is kept.</summary>
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <param name="edition">The one that is served: its days count.</param>
    /// <returns>The check-in of now, with the visit and what was asked and answered so far; null if nothing is asked now.</returns>
    public async ValueTask<OpenCheckIn?> FindOpenAsync(Edition edition, string conversation, CancellationToken cancellation)
    {
        if (await visits.FindAsync(conversation, cancellation).ConfigureAwait(false) is not { } visit
            || await followUps.FindAsync(conversation, cancellation).ConfigureAwait(false) is not { } followUp)
            return null;
        var days = CheckIn.After(edition, visit);
        return days.FirstOrDefault(d => d.IsOpen(Now)) is { } day ? new OpenCheckIn(visit, followUp, day, days.FirstOrDefault(d => d.Day > day.Day)) : null;
    }

    /// <summary>Of several answers on one day the last counts.</summary>
    /// <returns>False if the conversation is not there any more.</returns>
    public ValueTask<bool> ReplyAsync(OpenCheckIn open, bool isWell, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(open);
        return ChangeAsync(
            open.FollowUp.Conversation,
            kept => kept.ReplyOf(open.Day.Day)?.IsWell == isWell ? null : kept.Replied(new CheckInReply(open.Day.Day, Now, isWell)),
            cancellation);
    }

    /// <summary>What was answered to a reminder. A patient who was sent none has a follow-up from now on.</summary>
    /// <returns>False if the conversation is not there any more.</returns>
    public async ValueTask<bool> ReplyBeforeVisitAsync(string conversation, string newCode, bool isWell, CancellationToken cancellation)
    {
        if (await followUps.FindAsync(conversation, cancellation).ConfigureAwait(false) is null)
            await followUps.PutAsync(new FollowUp(conversation, 1, "", newCode), cancellation).ConfigureAwait(false);
        return await ChangeAsync(conversation, kept => kept.Replied(new CheckInReply(BeforeVisit.Day, Now, isWell)), cancellation).ConfigureAwait(false);
    }

    /// <summary>No message is sent any more; the question waits on the patient's page.</summary>
    /// <returns>False if the code stops nothing, any more or at all.</returns>
    public async ValueTask<bool> StopAsync(string code, CancellationToken cancellation) =>
        await FindByCodeAsync(code, cancellation).ConfigureAwait(false) is { } asked
        && await ChangeAsync(asked.Conversation, kept => kept.IsStopped ? null : kept.Stopped(), cancellation).ConfigureAwait(false);

    public async ValueTask<FollowUp?> FindByCodeAsync(string code, CancellationToken cancellation) =>
        (await followUps.AllAsync(cancellation).ConfigureAwait(false)).FirstOrDefault(f => string.Equals(f.StopCode, code, StringComparison.Ordinal));

    /// <param name="next">What it becomes; null: nothing is to be changed.</param>
    async ValueTask<bool> ChangeAsync(string conversation, Func<FollowUp, FollowUp?> next, CancellationToken cancellation)
    {
        while (await followUps.FindAsync(conversation, cancellation).ConfigureAwait(false) is { } kept)
        {
            if (next(kept) is not { } changed || await followUps.PutAsync(changed, cancellation).ConfigureAwait(false))
                return true;
        }

        return false;
    }
}

/// <param name="Next">The check-in after this one, or null.</param>
public sealed record OpenCheckIn(Visit Visit, FollowUp FollowUp, CheckIn Day, CheckIn? Next)
{
    public CheckInReply? Reply => FollowUp.ReplyOf(Day.Day);
}
