using System.Threading.Channels;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage.Postgres;

/// <summary>
/// Appends that wait together share one statement and one commit. While the commit of one group is under way the next group gathers; a
/// conversation always takes the same lane, so that its turns keep their order.
/// </summary>
sealed class TurnQueue : IAsyncDisposable
{
    readonly Database _database;
    readonly int _largestGroup;
    readonly Channel<AppendRequest>[] _lanes;
    readonly Task[] _running;

    public TurnQueue(Database database, StoreOptions options)
    {
        _database = database;
        _largestGroup = options.LargestGroup;
        _lanes = [.. Enumerable.Range(0, options.Lanes).Select(_ => Channel.CreateBounded<AppendRequest>(
            new BoundedChannelOptions(Math.Max(1, options.LongestQueue / options.Lanes)) { SingleReader = true }))];
        _running = [.. _lanes.Select(lane => Task.Run(() => RunAsync(lane.Reader)))];
    }

    public int Waiting => _lanes.Sum(l => l.Reader.Count);

    /// <exception cref="StoreFailedException">Too much waits already.</exception>
    public void Post(AppendRequest request)
    {
        var hash = request.Record.Conversation.GetHashCode(StringComparison.Ordinal) & int.MaxValue;
        var lane = _lanes[hash % _lanes.Length];
        if (!lane.Writer.TryWrite(request))
            throw new StoreFailedException("The store is closed, or too many turns wait for the database. Nothing was saved.");
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var lane in _lanes)
            lane.Writer.TryComplete();
        await Task.WhenAll(_running).ConfigureAwait(false);
    }

    async Task RunAsync(ChannelReader<AppendRequest> waiting)
    {
        var group = new List<AppendRequest>(_largestGroup);
        var conversations = new HashSet<string>(StringComparer.Ordinal);
        var later = new Queue<AppendRequest>();
        while (later.Count > 0 || await waiting.WaitToReadAsync().ConfigureAwait(false))
        {
            // A second turn of a conversation waits for the next group.
            for (var left = later.Count; left > 0; left--)
                Place(later.Dequeue());
            while (group.Count < _largestGroup && waiting.TryRead(out var request))
                Place(request);
            await AppendAsync(group).ConfigureAwait(false);
            group.Clear();
            conversations.Clear();
        }

        void Place(AppendRequest request)
        {
            if (group.Count < _largestGroup && conversations.Add(request.Record.Conversation))
                group.Add(request);
            else
                later.Enqueue(request);
        }
    }

    async Task AppendAsync(List<AppendRequest> group)
    {
        try
        {
            var kept = await _database.UseAsync(connection => TurnRows.AppendAsync(connection, group), CancellationToken.None).ConfigureAwait(false);
            foreach (var request in group)
            {
                request.Result = kept.Contains(request.Record.Conversation) ? new Appended.Kept() : await WhyNotAsync(request.Record).ConfigureAwait(false);
                request.Answer();
            }
        }
        catch (Exception failure)
        {
            // Whatever it is, the lane goes on with the next group, and nobody is left waiting.
            foreach (var request in group)
                request.Fail(failure as StoreFailedException ?? new StoreFailedException("The turn was not kept: " + failure.Message, failure));
        }
    }

    async Task<Appended> WhyNotAsync(TurnRecord record) =>
        await _database.UseAsync(c => TurnRows.FindAsync(c, record.Conversation, record.TurnId, CancellationToken.None), CancellationToken.None).ConfigureAwait(false)
            is { } earlier
            ? new Appended.Repeated(earlier)
            : new Appended.Stale();
}
