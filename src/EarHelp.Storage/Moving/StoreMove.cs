using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Postgres;

namespace EarHelp.Storage.Moving;

/// <summary>Carries everything that one store keeps to another, which is empty. The first stays as it is.</summary>
public static class StoreMove
{
    /// <returns>What was moved, as it was counted on both sides.</returns>
    /// <exception cref="StoreFailedException">A service uses one of them, the target is not empty, the source is damaged, or what arrived differs. The target is as it was.</exception>
    public static async Task<ImmutableArray<CountedPart>> RunAsync(IStore from, IStore to, CancellationToken cancellation)
    {
        var (source, target) = (Whole(from), Whole(to));
        var held = await source.HoldAloneAsync(cancellation).ConfigureAwait(false);
        await using var _ = held.ConfigureAwait(false);
        var heldToo = await target.HoldAloneAsync(cancellation).ConfigureAwait(false);
        await using var __ = heldToo.ConfigureAwait(false);
        var tally = new Tally();
        if (!await source.ReadAsync(cancellation).AnyAsync(cancellation).ConfigureAwait(false))
            throw new StoreFailedException("The source holds nothing: name the store that holds what is to be moved.");
        await target.FillAsync(CheckedAsync(source, tally, cancellation), tally, cancellation).ConfigureAwait(false);
        return tally.Counted();
    }

    internal static IWholeStore Whole(IStore store) => store switch
    {
        LiteTurnStore file => file.Rows,
        PostgresStore database => database.Rows,
        _ => throw new ArgumentException($"A {store?.GetType().Name} cannot be moved.", nameof(store)),
    };

    static async IAsyncEnumerable<Row> CheckedAsync(IRowSource source, Tally tally, [EnumeratorCancellation] CancellationToken cancellation)
    {
        var chains = new ChainCheck();
        await foreach (var row in source.ReadAsync(cancellation).ConfigureAwait(false))
        {
            tally.Add(row);
            chains.Add(row);
            if (chains.Damages is [var damage, ..])
                throw new StoreFailedException($"{damage} A damaged store is not moved: restore the last verified backup first. Nothing is changed at the target.");
            yield return row;
        }
    }
}
