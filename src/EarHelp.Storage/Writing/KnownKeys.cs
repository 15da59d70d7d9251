using System.Collections.Concurrent;

namespace EarHelp.Storage.Writing;

/// <summary>
/// Keys that were found lately, or not found, so that not every page asks the file. The truth is the file; what is not known here is looked
/// up there.
/// </summary>
sealed class KnownKeys(int most)
{
    readonly ConcurrentDictionary<string, KnownKey?> _known = new(StringComparer.Ordinal);
    readonly Lock _changing = new();
    int _generation;

    /// <summary>Changes whenever something was written or forgotten: what was read from the file before that is not kept here.</summary>
    public int Generation => Volatile.Read(ref _generation);

    /// <param name="key">What it opens; null: nothing.</param>
    /// <returns>False: it is not known here.</returns>
    public bool TryFind(string hash, out KnownKey? key) => _known.TryGetValue(hash, out key);

    /// <summary>What was read from the file.</summary>
    /// <param name="key">Null: the file has none. To be given only where no other process writes.</param>
    /// <param name="generation">As it was before the key was read from the file.</param>
    public void Add(string hash, KnownKey? key, int generation)
    {
        lock (_changing)
        {
            if (generation == _generation)
                Keep(hash, key);
        }
    }

    /// <summary>What was written to the file.</summary>
    public void Put(string hash, KnownKey key)
    {
        lock (_changing)
        {
            _generation++;
            Keep(hash, key);
        }
    }

    public void Forget(string hash)
    {
        lock (_changing)
        {
            _generation++;
            _known.TryRemove(hash, out _);
        }
    }

    public void ForgetAll()
    {
        lock (_changing)
        {
            _generation++;
            _known.Clear();
        }
    }

    void Keep(string hash, KnownKey? key)
    {
        if (_known.Count >= most)
            _known.Clear();
        _known[hash] = key;
    }
}

/// <param name="Expires">Unit: milliseconds of Unix time; exclusive.</param>
sealed record KnownKey(string Conversation, long Expires);
