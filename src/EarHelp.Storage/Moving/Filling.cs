using System.Runtime.CompilerServices;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Moving;

/// <summary>What every target does alike.</summary>
static class Filling
{
    const int MostRows = 500;

    /// <summary>A group of turns at the most of that size, unless one turn is longer. Unit: bytes.</summary>
    const int MostBytes = 4 * 1024 * 1024;

    public static StoreFailedException NotEmpty() => new("The target holds something already. Name one that is empty: nothing is ever mixed.");

    /// <summary>Rows of one part that come together.</summary>
    public static async IAsyncEnumerable<IReadOnlyList<Row>> GroupAsync(IAsyncEnumerable<Row> rows, [EnumeratorCancellation] CancellationToken cancellation)
    {
        var group = new List<Row>(MostRows);
        var bytes = 0;
        await foreach (var row in rows.WithCancellation(cancellation).ConfigureAwait(false))
        {
            if (group.Count == MostRows || bytes >= MostBytes || (group.Count > 0 && group[0].Part != row.Part))
            {
                yield return group;
                group = new List<Row>(MostRows);
                bytes = 0;
            }

            group.Add(row);
            bytes += row.Values.Sum(v => (v as byte[])?.Length ?? 0);
        }

        if (group.Count > 0)
            yield return group;
    }

    /// <exception cref="StoreFailedException">What is kept is not what was given; names the first part that differs.</exception>
    public static void Compare(Tally given, IEnumerable<Row> kept)
    {
        var tally = new Tally();
        foreach (var row in kept)
            tally.Add(row);
        Compare(given, tally);
    }

    public static void Compare(Tally given, Tally kept)
    {
        foreach (var (wanted, found) in given.Counted().Zip(kept.Counted()))
        {
            if (wanted != found)
                throw new StoreFailedException(
                    $"What arrived is not what was sent: of {wanted.Name} {found.Count} rows with hash {found.Hash}, not {wanted.Count} with {wanted.Hash}. Nothing is changed at the target.");
        }
    }
}
