using System.Collections.Immutable;
using System.Text;

namespace EarHelp.Triage.Facts;

/// <summary>A set of a fact's values, as sorted, disjoint, non-adjoining ranges of their indexes. Compares by content.</summary>
public sealed class ValueSet : IEquatable<ValueSet>
{
    readonly ImmutableArray<IndexRange> _ranges;

    ValueSet(ImmutableArray<IndexRange> ranges) => _ranges = ranges;

    public static ValueSet Empty { get; } = new([]);

    public ImmutableArray<IndexRange> Ranges => _ranges;

    public bool IsEmpty => _ranges.Length == 0;

    /// <summary>How many values are in the set.</summary>
    public long Count
    {
        get
        {
            long count = 0;
            foreach (var range in _ranges)
                count += range.Last - range.First + 1L;
            return count;
        }
    }

    /// <summary>The only member, or null if there is none or more than one.</summary>
    public int? Only => _ranges.Length == 1 && _ranges[0].First == _ranges[0].Last ? _ranges[0].First : null;

    public int Least => _ranges[0].First;

    public int Greatest => _ranges[^1].Last;

    public static ValueSet Of(int index) => new([new IndexRange(index, index)]);

    /// <summary>Both ends are in the set.</summary>
    public static ValueSet Between(int first, int last) => first > last ? Empty : new([new IndexRange(first, last)]);

    public static ValueSet OfMany(IEnumerable<int> indexes)
    {
        ArgumentNullException.ThrowIfNull(indexes);
        return Union(indexes.Select(i => new IndexRange(i, i)));
    }

    public bool Contains(int index)
    {
        foreach (var range in _ranges)
        {
            if (index < range.First)
                return false;
            if (index <= range.Last)
                return true;
        }

        return false;
    }

    public bool Overlaps(ValueSet other) => !Intersect(other).IsEmpty;

    public bool IsSubsetOf(ValueSet other) => Intersect(other).Equals(this);

    public ValueSet Union(ValueSet other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Union(_ranges.Concat(other._ranges));
    }

    public ValueSet Intersect(ValueSet other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var kept = ImmutableArray.CreateBuilder<IndexRange>();
        int mine = 0, theirs = 0;
        while (mine < _ranges.Length && theirs < other._ranges.Length)
        {
            var first = Math.Max(_ranges[mine].First, other._ranges[theirs].First);
            var last = Math.Min(_ranges[mine].Last, other._ranges[theirs].Last);
            if (first <= last)
                kept.Add(new IndexRange(first, last));
            if (_ranges[mine].Last < other._ranges[theirs].Last)
                mine++;
            else
                theirs++;
        }

        return new ValueSet(kept.ToImmutable());
    }

    /// <summary>All values of a domain of the given size that are not in this set.</summary>
    public ValueSet Complement(int domainCount)
    {
        var kept = ImmutableArray.CreateBuilder<IndexRange>();
        var next = 0;
        foreach (var range in _ranges)
        {
            if (range.First > next)
                kept.Add(new IndexRange(next, range.First - 1));
            next = range.Last + 1;
        }

        if (next < domainCount)
            kept.Add(new IndexRange(next, domainCount - 1));
        return new ValueSet(kept.ToImmutable());
    }

    public bool Equals(ValueSet? other) => other is not null && _ranges.AsSpan().SequenceEqual(other._ranges.AsSpan());

    public override bool Equals(object? obj) => Equals(obj as ValueSet);

    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var range in _ranges)
            hash.Add(range);
        return hash.ToHashCode();
    }

    public override string ToString()
    {
        var text = new StringBuilder("{");
        foreach (var range in _ranges)
        {
            if (text.Length > 1)
                text.Append(", ");
            text.Append(range.First);
            if (range.Last != range.First)
                text.Append("..").Append(range.Last);
        }

        return text.Append('}').ToString();
    }

    static ValueSet Union(IEnumerable<IndexRange> ranges)
    {
        var kept = ImmutableArray.CreateBuilder<IndexRange>();
        foreach (var range in ranges.OrderBy(r => r.First))
        {
            if (kept.Count > 0 && range.First <= kept[^1].Last + 1)
                kept[^1] = new IndexRange(kept[^1].First, Math.Max(kept[^1].Last, range.Last));
            else
                kept.Add(range);
        }

        return new ValueSet(kept.ToImmutable());
    }
}

/// <summary>A run of value indexes; both ends are in it.</summary>
public readonly record struct IndexRange(int First, int Last);
