using System.Collections.Concurrent;
using EarHelp.Storage.Records;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>
/// Copies the live records to a new file in short pieces, while turns are taken. What changes meanwhile is noted and brought over; only what
/// is small, and the last few changes, are copied while the writer waits.
/// </summary>
sealed class FileCopy : IDisposable
{
    /// <summary>Whose changes are noted: there is much of them.</summary>
    static readonly string[] Noted = [TurnDocuments.Collection, CardDocuments.Collection, KeyDocuments.Collection];

    /// <summary>What only grows at its end.</summary>
    static readonly string[] Chains = [ChainDocuments.Ledger, ChainDocuments.Audit];

    readonly StoreFile _file;
    readonly NextFile _next;
    readonly ConcurrentQueue<(string Collection, BsonValue Id)> _changed = new();
    readonly Dictionary<string, BsonValue> _copied = [];
    readonly Queue<string> _left = new([.. Noted, .. Chains]);
    bool _isOver;

    /// <summary>To be made on the writer's thread, so that no change is half before it.</summary>
    public FileCopy(StoreFile file) => (_file, _next) = (file, file.BeginNext());

    /// <summary>A record was written or deleted. On the writer's thread, after it was committed.</summary>
    public void Note(string collection, BsonValue id) => _changed.Enqueue((collection, id));

    /// <summary>Copies one more piece.</summary>
    /// <returns>False: what is left is little.</returns>
    public bool GoOn()
    {
        if (_left.TryPeek(out var collection))
        {
            if (!CopyPiece(collection))
                _left.Dequeue();
            return true;
        }

        if (_changed.Count < Pieces.AtOnce)
            return false;
        BringOver(Pieces.AtOnce);
        return true;
    }

    /// <summary>Copies the rest and puts the new file in the place of the one in use. On the writer's thread.</summary>
    public void Take()
    {
        while (!_changed.IsEmpty)
            BringOver(Pieces.AtOnce);
        foreach (var chain in Chains)
        {
            while (CopyPiece(chain))
            {
            }
        }

        foreach (var collection in StoreFile.Collections.Except(Noted).Except(Chains))
            _next.Database.GetCollection(collection).InsertBulk(_file.All(collection));
        _file.Take(_next);
        _isOver = true;
    }

    /// <summary>Removes the new file if it was not taken.</summary>
    public void Dispose()
    {
        if (_isOver)
            return;
        _isOver = true;
        _file.Drop(_next);
    }

    /// <summary>Lets go of the new file after a failure of the disk.</summary>
    public void Abandon()
    {
        _isOver = true;
        _next.Abandon();
    }

    /// <returns>False: the collection is copied to its end.</returns>
    bool CopyPiece(string collection)
    {
        var after = _copied.GetValueOrDefault(collection, BsonValue.MinValue);
        var piece = _file.Read(d => Pieces.After(d.GetCollection(collection), after));
        if (piece.Count == 0)
            return false;

        // What was brought over already has changed since: it may be there.
        _next.Database.GetCollection(collection).Upsert(piece);
        _copied[collection] = piece[^1]["_id"];
        return Pieces.EndOf(piece) is not null;
    }

    void BringOver(int most)
    {
        var changed = new HashSet<(string Collection, BsonValue Id)>();
        for (var i = 0; i < most && _changed.TryDequeue(out var one); i++)
            changed.Add(one);
        foreach (var ofOne in changed.GroupBy(c => c.Collection, c => c.Id))
        {
            var found = _file.Read(d => ofOne.Select(id => (Id: id, Document: d.GetCollection(ofOne.Key).FindById(id))).ToList());
            var collection = _next.Database.GetCollection(ofOne.Key);
            collection.Upsert(found.Where(f => f.Document is not null).Select(f => f.Document));
            foreach (var (id, _) in found.Where(f => f.Document is null))
                collection.Delete(id);
        }
    }
}
