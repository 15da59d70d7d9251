using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>
/// Sends what is due: claims a message, hands it over, records what became of it. A message is lost never, and sent twice only if the
/// sender was cut off between the server's acceptance and the record.
/// </summary>
public sealed class Outbox(IFollowUps followUps, IVisitStore visits, IPost post, TimeProvider clock)
{
    /// <summary>To the millisecond, as it is kept.</summary>
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <param name="write">Words a message; null: it cannot be worded now, and is put off.</param>
    /// <returns>How many messages the server accepted.</returns>
    public async ValueTask<int> SendDueAsync(Edition edition, Func<FollowUp, CheckIn, CancellationToken, ValueTask<OutgoingMessage?>> write, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(write);
        var accepted = 0;
        if (edition.Clinic.CheckInDays.IsEmpty)
            return accepted;
        foreach (var followUp in (await followUps.AllAsync(cancellation).ConfigureAwait(false)).Where(f => f.IsAsked))
        {
            if (!CheckIn.MayDisturb(edition, Now))
                return accepted;
            if (await visits.FindAsync(followUp.Conversation, cancellation).ConfigureAwait(false) is { } visit
                && CheckIn.After(edition, visit).FirstOrDefault(d => followUp.MayBeSent(d, Now)) is { } due
                && await SendAsync(followUp, due, write, cancellation).ConfigureAwait(false))
                accepted++;
        }

        return accepted;
    }

    async ValueTask<bool> SendAsync(
        FollowUp followUp, CheckIn due, Func<FollowUp, CheckIn, CancellationToken, ValueTask<OutgoingMessage?>> write, CancellationToken cancellation)
    {
        var claimed = followUp.Claimed(due.Name, Now);
        if (!await followUps.PutAsync(claimed, cancellation).ConfigureAwait(false))
            return false;
        var delivery = await write(claimed, due, cancellation).ConfigureAwait(false) is { } message
            ? await post.SendAsync(message, cancellation).ConfigureAwait(false)
            : Delivery.NotNow;
        var state = delivery switch
        {
            Delivery.Accepted => MessageState.Accepted,
            Delivery.Refused => MessageState.Refused,
            Delivery.NotNow => MessageState.PutOff,
            _ => MessageState.Claimed,
        };
        await SettleAsync(claimed, due.Name, state, cancellation).ConfigureAwait(false);
        return delivery == Delivery.Accepted;
    }

    /// <summary>The patient may have answered or stopped meanwhile: their change stays.</summary>
    async ValueTask SettleAsync(FollowUp followUp, string name, MessageState state, CancellationToken cancellation)
    {
        for (var kept = followUp; kept is not null; kept = await followUps.FindAsync(followUp.Conversation, cancellation).ConfigureAwait(false))
        {
            if (state == MessageState.Claimed || await followUps.PutAsync(kept.Settled(name, state, Now), cancellation).ConfigureAwait(false))
                return;
        }
    }
}
