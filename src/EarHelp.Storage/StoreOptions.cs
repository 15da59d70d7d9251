using EarHelp.Storage.Disk;

namespace EarHelp.Storage;

/// <summary>What may be chosen about the store; the defaults suit one clinic on one machine.</summary>
public sealed record StoreOptions
{
    /// <summary>Gives the rhythm of the checkpoints; no instant of it is ever stored.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>How often the log is folded into the main file even if it is short. Longer than zero.</summary>
    public TimeSpan CheckpointEvery { get; init; } = TimeSpan.FromMinutes(1);

    /// <summary>Length of the log, in pages of 8,192 bytes, at which LiteDB folds it in.</summary>
    public int CheckpointPages { get; init; } = 12_000;

    /// <summary>The most requests that share one commit.</summary>
    public int LargestGroup { get; init; } = 256;

    /// <summary>The most requests that may wait; one more is refused at once rather than left hanging.</summary>
    public int LongestQueue { get; init; } = 10_000;

    /// <summary>Groups of turns that are on their way to a PostgreSQL database at one time.</summary>
    public int Lanes { get; init; } = 2;

    /// <summary>The largest body of one turn, in bytes, inclusive.</summary>
    public int LargestBodyBytes { get; init; } = 1_048_576;

    /// <summary>A file that takes the identifier of each conversation that somebody has erased, before it is erased. Null: no list is kept.</summary>
    public string? ErasureList { get; init; }

    /// <summary>Sees every change of a file before it happens: tests cut, fail or record there.</summary>
    internal IDiskWatch? Watch { get; init; }
}
