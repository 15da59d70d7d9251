using System.Threading.Channels;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Records;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>
/// The one thread that writes. Appends that wait together share one transaction (group commit); each is answered only after its
/// commit is on the disk. Any failure ends all writing, whatever it is, and never the process: what was acknowledged is safe, and nothing else
/// is taken.
/// </summary>
sealed class Writer : IDisposable
{
    const int ConversationsRemembered = 10_000;

    readonly StoreFile _file;
    readonly KnownKeys _keys;
    readonly Renewal _renewal;
    readonly int _largestGroup;
    readonly Channel<Request> _waiting;
    readonly Remembered _remembered = new(ConversationsRemembered);
    readonly Thread _thread;
    volatile Exception? _failure;

    public Writer(StoreFile file, KnownKeys keys, Renewal renewal, StoreOptions options)
    {
        (_file, _keys, _renewal) = (file, keys, renewal);
        _largestGroup = options.LargestGroup;
        _waiting = Channel.CreateBounded<Request>(new BoundedChannelOptions(options.LongestQueue) { SingleReader = true });
        _thread = new Thread(Run) { IsBackground = true, Name = "store writer" };
        _thread.Start();
    }

    public int Waiting => _waiting.Reader.Count;

    public Exception? Failure => _failure;

    /// <exception cref="StoreFailedException">The store has failed, or too much waits already.</exception>
    public void Post(Request request)
    {
        if (_failure is { } failure)
            throw Refusal(failure);
        if (!_waiting.Writer.TryWrite(request))
            throw new StoreFailedException("The store is closed, or too many turns wait for the disk. Nothing was saved.");
    }

    public void Forget(string conversation) => _remembered.Forget(conversation);

    public void ForgetAll() => _remembered.ForgetAll();

    public void Dispose()
    {
        _waiting.Writer.TryComplete();
        _thread.Join();
    }

    static StoreFailedException Refusal(Exception failure) =>
        new("The store has failed and takes no more turns until the service is started again: " + failure.Message, failure);

    void Run()
    {
        var group = new List<AppendRequest>(_largestGroup);
        while (_waiting.Reader.WaitToReadAsync().AsTask().GetAwaiter().GetResult())
        {
            while (_waiting.Reader.TryRead(out var request))
            {
                if (request is not AppendRequest append)
                {
                    DoWork(request);
                    continue;
                }

                group.Add(append);
                while (group.Count < _largestGroup && _waiting.Reader.TryPeek(out var next) && next is AppendRequest && _waiting.Reader.TryRead(out next))
                    group.Add((AppendRequest)next);
                AppendGroup(group);
                group.Clear();
            }
        }
    }

    void DoWork(Request request)
    {
        try
        {
            if (_failure is { } earlier)
                throw earlier;
            var work = (IWork)request;
            if (work.IsAlone)
                _file.Alone(work.Do);
            else
                work.Do();
            request.Answer();
        }
        catch (StoreFailedException refused)
        {
            request.Fail(refused);
        }
        catch (Exception failure)
        {
            _failure ??= failure;
            request.Fail(Refusal(failure));
        }
    }

    void AppendGroup(List<AppendRequest> group)
    {
        try
        {
            if (_failure is { } earlier)
                throw earlier;
            _file.Alone(() => Commit(group));
        }
        catch (Exception failure)
        {
            _failure ??= failure;
            _remembered.ForgetAll();
            foreach (var request in group)
                request.Fail(Refusal(failure));
            return;
        }

        foreach (var request in group)
            request.Answer();
    }

    void Commit(List<AppendRequest> group)
    {
        var database = _file.Database;
        var turns = new List<BsonDocument>(group.Count);
        var written = new Dictionary<string, TurnRecord>(StringComparer.Ordinal);
        var cards = new Dictionary<string, BsonDocument>(StringComparer.Ordinal);
        var keys = new Dictionary<string, (ConversationKey Key, string Conversation)>(StringComparer.Ordinal);
        foreach (var request in group)
        {
            var record = request.Record;
            var known = _remembered.Of(database, record.Conversation);
            if (known.NumberOf(record.TurnId) is { } number)
            {
                var id = TurnDocuments.IdOf(record.Conversation, number);
                request.Result = new Appended.Repeated(
                    written.TryGetValue(id, out var here) ? here : TurnDocuments.Read(database.GetCollection(TurnDocuments.Collection).FindById(id)));
            }
            else if (record.Number != known.Last + 1)
            {
                request.Result = new Appended.Stale();
            }
            else
            {
                known.Add(record.Number, record.TurnId);
                turns.Add(TurnDocuments.Write(record));
                written.Add(TurnDocuments.IdOf(record.Conversation, record.Number), record);
                if (known.WritesCard(record.AtUnixMilliseconds, record.Finished))
                    cards[record.Conversation] = CardDocuments.Write(record);
                foreach (var key in request.Keys.Where(k => MayOpen(k.Hash, record.Conversation)))
                    keys.TryAdd(key.Hash, (key, record.Conversation));
                request.Result = new Appended.Kept();
            }
        }

        if (turns.Count == 0)
            return;
        database.BeginTrans();
        database.GetCollection(TurnDocuments.Collection).Insert(turns);
        if (cards.Count > 0)
            database.GetCollection(CardDocuments.Collection).Upsert(cards.Values);
        if (keys.Count > 0)
            database.GetCollection(KeyDocuments.Collection).Upsert(keys.Values.Select(k => KeyDocuments.Write(k.Key, k.Conversation)));
        if (!database.Commit())
            throw new InvalidOperationException("The database did not commit.");
        foreach (var (hash, kept) in keys)
            _keys.Put(hash, KeyDocuments.Known(kept.Key, kept.Conversation));
        Note(TurnDocuments.Collection, written.Keys);
        Note(CardDocuments.Collection, cards.Keys);
        Note(KeyDocuments.Collection, keys.Keys);
    }

    void Note(string collection, IEnumerable<string> ids)
    {
        foreach (var id in ids)
            _renewal.Note(collection, id);
    }

    /// <summary>False if the key opens another conversation.</summary>
    bool MayOpen(string hash, string conversation)
    {
        if (!_keys.TryFind(hash, out var found))
            found = KeyDocuments.Find(_file.Database, hash);
        return found is null || found.Conversation == conversation;
    }
}
