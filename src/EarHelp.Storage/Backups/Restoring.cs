using System.Runtime.CompilerServices;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Moving;
using EarHelp.Storage.Records;

namespace EarHelp.Storage.Backups;

/// <summary>Brings back what a backup holds.</summary>
public static class Restoring
{
    /// <summary>
    /// Restores into an empty store, all of it or nothing. Conversations that were erased after the backup was made, and those that a visit joins
    /// to one of them, are left out with everything that hangs on them, and are never written to the store.
    /// </summary>
    /// <exception cref="StoreFailedException">The backup is damaged, or the store is not empty or cannot take it. The store is as it was.</exception>
    public static async Task<Restored> RestoreAsync(string path, IReadOnlyCollection<string> erased, IStore to, CancellationToken cancellation)
    {
        var (content, leftOut) = await CheckAsync(path, erased, cancellation).ConfigureAwait(false);
        var target = StoreMove.Whole(to);
        var held = await target.HoldAloneAsync(cancellation).ConfigureAwait(false);
        await using var _ = held.ConfigureAwait(false);
        var tally = new Tally();
        var found = new HashSet<string>(StringComparer.Ordinal);
        await target.FillAsync(WithoutAsync(new BackupFile(path), leftOut, found, tally, cancellation), tally, cancellation).ConfigureAwait(false);
        return new Restored(content, tally.Counted(), [.. found.Order(StringComparer.Ordinal)]);
    }

    /// <summary>Reads all of a backup, and writes nothing anywhere.</summary>
    /// <exception cref="StoreFailedException">It is damaged; says how.</exception>
    public static async Task<BackupContent> CheckAsync(string path, CancellationToken cancellation) =>
        (await CheckAsync(path, [], cancellation).ConfigureAwait(false)).Content;

    /// <summary>A drill: restores into a store in a folder that is gone afterwards, opens it again, and reads every conversation of it.</summary>
    /// <exception cref="StoreFailedException">It could not be restored; says why.</exception>
    public static async Task<Restored> VerifyAsync(string path, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("earhelp-verify-").FullName;
        try
        {
            Restored restored;
            var filled = LiteTurnStore.Open(folder, new StoreOptions());
            await using (filled.ConfigureAwait(false))
                restored = await RestoreAsync(path, [], filled, cancellation).ConfigureAwait(false);
            var opened = LiteTurnStore.Open(folder, new StoreOptions());
            await using (opened.ConfigureAwait(false))
            {
                var tally = new Tally();
                var chains = new ChainCheck();
                await foreach (var row in opened.Rows.ReadAsync(cancellation).ConfigureAwait(false))
                {
                    tally.Add(row);
                    chains.Add(row);
                }

                if (!tally.Counted().SequenceEqual(restored.Content.Parts) || !chains.Damages.SequenceEqual(restored.Content.Damages))
                    throw new StoreFailedException($"What was restored from {path} is not what it holds.");
            }

            return restored;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Reads all of a backup before anything is written anywhere.</summary>
    static async Task<(BackupContent Content, HashSet<string> LeftOut)> CheckAsync(string path, IReadOnlyCollection<string> erased, CancellationToken cancellation)
    {
        var file = new BackupFile(path);
        var chains = new ChainCheck();
        var joined = new List<(string After, string Before)>();
        await foreach (var row in file.ReadAsync(cancellation).ConfigureAwait(false))
        {
            chains.Add(row);
            if (row.Part == Part.Visits && row.Values[1] is string before)
                joined.Add((row.At<string>(0), before));
        }

        if (!chains.Damages.SequenceEqual(file.Content!.Damages))
            throw new StoreFailedException($"The backup {path} is damaged: {chains.Damages[0]} It is not used. Take another one.");
        return (file.Content, Joined.With(erased, joined));
    }

    static async IAsyncEnumerable<Row> WithoutAsync(
        BackupFile source, HashSet<string> leftOut, HashSet<string> found, Tally tally, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await foreach (var row in source.ReadAsync(cancellation).ConfigureAwait(false))
        {
            if (row.Conversation is { } conversation && leftOut.Contains(conversation))
            {
                found.Add(conversation);
                continue;
            }

            tally.Add(row);
            yield return row;
        }
    }
}
