using System.Collections.Immutable;
using EarHelp.Content.Problems;

namespace EarHelp.Web.Editions;

/// <summary>What became of something that was to be done about an edition.</summary>
public abstract record AddedDeed
{
    AddedDeed()
    {
    }

    /// <summary>It is in the ledger and in force.</summary>
    public sealed record Added : AddedDeed;

    /// <summary>Another one came first: read again, decide again.</summary>
    public sealed record Stale : AddedDeed;

    /// <param name="Why">In words for the person who asked.</param>
    public sealed record Refused(string Why) : AddedDeed;

    /// <param name="Problems">Why this program cannot serve the edition; empty if it is not kept here.</param>
    public sealed record Faulty(ImmutableArray<Problem> Problems) : AddedDeed;
}
