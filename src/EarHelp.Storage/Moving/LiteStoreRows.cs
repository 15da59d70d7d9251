using System.Runtime.CompilerServices;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Writing;
using LiteDB;

namespace EarHelp.Storage.Moving;

/// <summary>
/// Everything in a LiteDB file. It is read in short pieces while turns are taken: what belongs to a conversation that began after the turns
/// were read is left out, and so is what was erased meanwhile.
/// </summary>
sealed class LiteStoreRows(LiteTurnStore store, StoreFile file) : IWholeStore
{
    public async IAsyncEnumerable<Row> ReadAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var conversations = new HashSet<string>(StringComparer.Ordinal);
        foreach (var part in Part.All)
        {
            for (BsonValue? after = BsonValue.MinValue; after is not null;)
            {
                cancellation.ThrowIfCancellationRequested();
                var from = after;
                (var rows, after) = store.Read(d => LiteRows.Read(d, part, from));
                foreach (var row in rows)
                {
                    if (part == Part.Turns)
                        conversations.Add(row.Conversation!);
                    if (row.Conversation is not { } conversation || conversations.Contains(conversation))
                        yield return row;
                }

                await Task.Yield();
            }
        }
    }

    /// <summary>The lock of the folder does so already.</summary>
    public ValueTask<IAsyncDisposable> HoldAloneAsync(CancellationToken cancellation) => ValueTask.FromResult<IAsyncDisposable>(new NoHold());

    public async Task FillAsync(IAsyncEnumerable<Row> rows, Tally given, CancellationToken cancellation)
    {
        if (!file.IsEmpty())
            throw Filling.NotEmpty();
        var next = file.BeginNext();
        try
        {
            await foreach (var group in Filling.GroupAsync(rows, cancellation).ConfigureAwait(false))
                LiteRows.Write(next.Database, group[0].Part, group);
            Filling.Compare(given, Part.All.SelectMany(p => LiteRows.All(next.Database, p)));
        }
        catch (Exception failure) when (failure is IOException or LiteException)
        {
            file.Drop(next);
            throw new StoreFailedException("The target cannot take it: " + failure.Message + " Nothing is changed there.", failure);
        }
        catch
        {
            file.Drop(next);
            throw;
        }

        await store.DoAsync(() =>
        {
            file.Take(next);
            store.Forget();
            return true;
        }).ConfigureAwait(false);
    }
}
