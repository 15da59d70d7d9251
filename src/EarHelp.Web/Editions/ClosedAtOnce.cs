using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Triage.Deadlines;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>When the clinic closed at once, at hand for every edition that is served: from that moment on nothing is offered inside it.</summary>
public sealed class ClosedAtOnce(IClosings store)
{
    volatile Known _all = new([]);

    public ImmutableArray<SuddenClosing> All() => _all.Closings;

    public async Task ReadAsync(CancellationToken cancellation) => _all = new Known([.. (await store.AllAsync(cancellation)).Select(c => new SuddenClosing(c.SetAt, c.LastDay, c.LiftedAt))]);

    public async Task CloseAsync(Instant now, LocalDate lastDay, CancellationToken cancellation)
    {
        await store.PutAsync(new KeptClosing(now, lastDay, null), cancellation);
        await ReadAsync(cancellation);
    }

    /// <summary>The clinic is open again from now on; what was called off stays so.</summary>
    public async Task LiftAsync(Instant now, CancellationToken cancellation)
    {
        foreach (var closing in All().Where(c => c.IsInForce(now)))
            await store.PutAsync(new KeptClosing(closing.SetAt, closing.LastDay, now), cancellation);
        await ReadAsync(cancellation);
    }

    sealed record Known(ImmutableArray<SuddenClosing> Closings);
}
