using System.Globalization;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>
/// Sends what is due: claims a message, hands it over, records what became of it. A message is lost never, and sent twice only if the
/// sender was cut off between the server's acceptance and the record.
/// </summary>
/// <param name="newCode">Makes a code that nobody can guess, for stopping the messages.</param>
public sealed class Outbox(IFollowUps followUps, IVisitStore visits, IRequestStore requests, IPost post, Func<string> newCode, TimeProvider clock)
{
    /// <summary>To the millisecond, as it is kept.</summary>
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <param name="write">Words a message; null: it cannot be worded now, and is put off.</param>
    /// <returns>How many messages the server accepted.</returns>
    public async ValueTask<int> SendDueAsync(Edition edition, Func<DueLetter, CancellationToken, ValueTask<OutgoingMessage?>> write, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(write);
        var accepted = 0;
        foreach (var followUp in (await followUps.AllAsync(cancellation).ConfigureAwait(false)).Where(f => f.IsAsked))
        {
            if (await visits.FindAsync(followUp.Conversation, cancellation).ConfigureAwait(false) is { } visit
                && AfterVisit(edition, visit, followUp).FirstOrDefault(m => followUp.MayBeSent(m, Now)) is { } due
                && await SendAsync(edition, new DueLetter(followUp, followUp.Email, due), write, cancellation).ConfigureAwait(false))
                accepted++;
        }

        foreach (var kept in (await requests.WaitingAsync(cancellation).ConfigureAwait(false)).Where(k => k.Contact is { Email.Length: > 0 }))
        {
            if (BeforeVisit.Of(edition, kept.Request).Where(m => m.IsOpen(Now)).ToList() is { Count: > 0 } open
                && await FindOrBeginAsync(kept.Request.Conversation, cancellation).ConfigureAwait(false) is { } followUp
                && open.FirstOrDefault(m => followUp.MayBeSent(m, Now)) is { } due
                && await SendAsync(edition, new DueLetter(followUp, kept.Contact!.Email, due), write, cancellation).ConfigureAwait(false))
                accepted++;
        }

        return accepted;
    }

    /// <summary>The plan, if it is wanted or was corrected, then each check-in that was not answered.</summary>
    static IEnumerable<DueMessage> AfterVisit(Edition edition, Visit visit, FollowUp followUp)
    {
        if (visit.Correction is { } correction)
            yield return new DueMessage(MessageKind.News, string.Create(CultureInfo.InvariantCulture, $"plan {visit.Version}"), correction.At, correction.At + Duration.FromDays(edition.Clinic.VisitKeptDays));
        else if (followUp.WantsPlan)
            yield return new DueMessage(MessageKind.News, "plan", visit.At, visit.At + Duration.FromDays(edition.Clinic.VisitKeptDays));
        foreach (var day in CheckIn.After(edition, visit).Where(d => followUp.ReplyOf(d.Day) is null))
            yield return day.Message;
    }

    /// <summary>Null if somebody else began it at this moment, or the conversation is gone: then it is looked at again in the next round.</summary>
    async ValueTask<FollowUp?> FindOrBeginAsync(string conversation, CancellationToken cancellation)
    {
        if (await followUps.FindAsync(conversation, cancellation).ConfigureAwait(false) is { } found)
            return found;
        var begun = new FollowUp(conversation, 1, "", newCode());
        return await followUps.PutAsync(begun, cancellation).ConfigureAwait(false) ? begun : null;
    }

    async ValueTask<bool> SendAsync(Edition edition, DueLetter due, Func<DueLetter, CancellationToken, ValueTask<OutgoingMessage?>> write, CancellationToken cancellation)
    {
        if (!CheckIn.MayDisturb(edition, Now))
            return false;
        var claimed = due.FollowUp.Claimed(due.Message.Name, Now);
        if (!await followUps.PutAsync(claimed, cancellation).ConfigureAwait(false))
            return false;
        var delivery = await write(due with { FollowUp = claimed }, cancellation).ConfigureAwait(false) is { } message
            ? await post.SendAsync(message, cancellation).ConfigureAwait(false)
            : Delivery.NotNow;
        var state = delivery switch
        {
            Delivery.Accepted => MessageState.Accepted,
            Delivery.Refused => MessageState.Refused,
            Delivery.NotNow => MessageState.PutOff,
            _ => MessageState.Claimed,
        };
        await SettleAsync(claimed, due.Message.Name, state, cancellation).ConfigureAwait(false);
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

/// <summary>A message that is due, with the address to which it goes.</summary>
public sealed record DueLetter(FollowUp FollowUp, string To, DueMessage Message);
