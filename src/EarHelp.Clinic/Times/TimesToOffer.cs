using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Stepping;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>The times that one person can really have now.</summary>
public sealed class TimesToOffer(IRequestStore store, IBusyTimes busy, TimeProvider clock)
{
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <param name="conversation">Whose own time does not stand in the way.</param>
    /// <param name="limit">Every time ends by then; null: the days ahead that the clinic plans are the limit.</param>
    /// <param name="after">Only times that start later; null: from now on.</param>
    /// <param name="most">How many at most.</param>
    /// <returns>Null: nobody can tell now which times are free.</returns>
    public async ValueTask<ImmutableArray<VisitTime>?> FindAsync(
        ServedEdition edition, string conversation, VisitKind kind, Instant? limit, Instant? after, int most, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(edition);
        var clinic = edition.Edition.Clinic;
        if (clinic.Lengths is not { } lengths)
            return [];
        var now = Now;
        var from = now + Duration.FromMinutes(lengths.NoticeMinutes);
        if (after is { } later && later >= from)
            from = later + Duration.Epsilon;
        var until = now + Duration.FromDays(lengths.DaysAhead);
        if (limit is { } end && end < until)
            until = end;
        if (until <= from)
            return [];
        if (await busy.BetweenAsync(from, until, clinic.Zone, cancellation).ConfigureAwait(false) is not { } busyTimes)
            return null;
        var others = await store.TakenAsync(now, conversation, cancellation).ConfigureAwait(false);
        return
        [
            .. FreeTimes.Find(
                edition.Calendar, clinic.Zone, [.. busyTimes.Select(b => Known(clinic, b)), .. others], kind.LengthIn(lengths), Duration.FromMinutes(lengths.StartsEvery), from, until).Take(most),
        ];
    }

    /// <summary>What is busy in a place that is none of the clinic's rooms takes everybody.</summary>
    static VisitTime Known(Triage.Editions.Clinic clinic, VisitTime busy) => clinic.Sittings.Any(s => s.Room == busy.Room) ? busy : busy with { Room = null };
}
