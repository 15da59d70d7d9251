using System.Collections.Immutable;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Diagrams;

/// <summary>
/// The values of one fact, put together where no condition tells them apart: numbers are split only at the bounds that the tables use.
/// </summary>
public sealed class ValueClasses
{
    /// <summary>A fact may be split into at most this many classes, so that a set of classes fits one machine word.</summary>
    public const int Most = 64;

    /// <summary>Up to so many values, the class of each is kept ready.</summary>
    const int MostListed = 4096;

    readonly int[] _starts;
    readonly int[] _classOfSegment;
    readonly byte[] _classOfValue;

    ValueClasses(int domainCount, int[] starts, int[] classOfSegment, ImmutableArray<ValueSet> members)
    {
        _starts = starts;
        _classOfSegment = classOfSegment;
        Members = members;
        _classOfValue = new byte[Math.Min(domainCount, MostListed)];
        for (var value = 0; value < _classOfValue.Length; value++)
            _classOfValue[value] = (byte)SearchClassOf(value);
    }

    /// <summary>The values of each class.</summary>
    public ImmutableArray<ValueSet> Members { get; }

    public int Count => Members.Length;

    /// <summary>A bit for every class.</summary>
    public ulong AllMask => Count == 64 ? ulong.MaxValue : (1UL << Count) - 1;

    /// <param name="domainCount">How many values the fact has.</param>
    /// <param name="told">Every set of values that a condition asks for.</param>
    public static ValueClasses Split(int domainCount, IReadOnlyCollection<ValueSet> told)
    {
        ArgumentNullException.ThrowIfNull(told);
        var starts = told
            .SelectMany(s => s.Ranges)
            .SelectMany(r => new[] { r.First, r.Last + 1 })
            .Append(0)
            .Where(s => s >= 0 && s < domainCount)
            .Distinct()
            .Order()
            .ToArray();
        var sets = told.Distinct().ToArray();
        var classOf = new Dictionary<string, int>(StringComparer.Ordinal);
        var classOfSegment = new int[starts.Length];
        var members = new List<ValueSet>();
        for (var i = 0; i < starts.Length; i++)
        {
            var last = i + 1 < starts.Length ? starts[i + 1] - 1 : domainCount - 1;
            var signature = string.Concat(sets.Select(s => s.Contains(starts[i]) ? '1' : '0'));
            if (!classOf.TryGetValue(signature, out var c))
            {
                c = members.Count;
                classOf.Add(signature, c);
                members.Add(ValueSet.Empty);
            }

            classOfSegment[i] = c;
            members[c] = members[c].Union(ValueSet.Between(starts[i], last));
        }

        if (members.Count > Most)
            throw new DiagramLimitException($"A fact is split into {members.Count} classes of values; the bound is {Most}.");
        return new ValueClasses(domainCount, starts, classOfSegment, [.. members]);
    }

    public int ClassOf(int valueIndex) =>
        (uint)valueIndex < (uint)_classOfValue.Length ? _classOfValue[valueIndex] : SearchClassOf(valueIndex);

    /// <summary>The classes that a set of values touches.</summary>
    public ulong MaskOf(ValueSet values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Only is { } only)
            return 1UL << ClassOf(only);
        ulong mask = 0;
        foreach (var range in values.Ranges)
        {
            var at = Array.BinarySearch(_starts, range.First);
            for (var i = at >= 0 ? at : ~at - 1; i < _starts.Length && _starts[i] <= range.Last; i++)
                mask |= 1UL << _classOfSegment[i];
        }

        return mask;
    }

    int SearchClassOf(int valueIndex)
    {
        var at = Array.BinarySearch(_starts, valueIndex);
        return _classOfSegment[at >= 0 ? at : ~at - 1];
    }
}
