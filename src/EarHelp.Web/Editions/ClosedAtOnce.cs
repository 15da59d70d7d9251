using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Triage.Deadlines;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>When the clinic closed at once, at hand for every edition that is served: from that moment on nothing is offered inside it.</summary>
public sealed class ClosedAtOnce(IClosings store)
{
    volatile StrongBox _all = new([]);

    public ImmutableArray<SuddenClosing> All() => _all.Closings;

    public async Task ReadAsync(CancellationToken cancellation) => _all = new StrongBox(await store.AllAsync(cancellation));

    public async Task CloseAsync(Instant now, LocalDate lastDay, CancellationToken cancellation)
    {
        await store.PutAsync(new SuddenClosing(now, lastDay, null), cancellation);
        await ReadAsync(cancellation);
    }

    /// <summary>The clinic is open again from now on; what was called off stays so.</summary>
    public async Task LiftAsync(Instant now, CancellationToken cancellation)
    {
        foreach (var closing in All().Where(c => c.IsInForce(now)))
            await store.PutAsync(closing with { LiftedAt = now }, cancellation);
        await ReadAsync(cancellation);
    }

    sealed record StrongBox(ImmutableArray<SuddenClosing> Closings);
}
