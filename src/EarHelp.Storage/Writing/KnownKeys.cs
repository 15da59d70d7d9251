using System.Collections.Concurrent;

namespace EarHelp.Storage.Writing;

/// <summary>Keys that were found lately, so that not every page asks the file. The truth is the file; what is not known here is looked up there.</summary>
sealed class KnownKeys(int most)
{
    readonly ConcurrentDictionary<string, KnownKey> _known = new(StringComparer.Ordinal);
    int _generation;

    /// <summary>Changes whenever something was forgotten: what was read from the file before that is not kept here.</summary>
    public int Generation => Volatile.Read(ref _generation);

    public KnownKey? Find(string hash) => _known.GetValueOrDefault(hash);

    /// <param name="generation">As it was before the key was read from the file.</param>
    public void Add(string hash, KnownKey key, int generation)
    {
        if (_known.Count >= most)
            _known.Clear();
        _known[hash] = key;
        if (generation != Generation)
            _known.TryRemove(hash, out _);
    }

    public void Forget(string hash)
    {
        Interlocked.Increment(ref _generation);
        _known.TryRemove(hash, out _);
    }

    public void ForgetAll()
    {
        Interlocked.Increment(ref _generation);
        _known.Clear();
    }
}

/// <param name="Expires">Unit: milliseconds of Unix time; exclusive.</param>
sealed record KnownKey(string Conversation, long Expires);
