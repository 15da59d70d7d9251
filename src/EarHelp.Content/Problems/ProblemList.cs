using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Problems;

/// <summary>Collects faults while sources are read; the same fault at the same spot counts once. Several threads may add.</summary>
/// <param name="passedOver">Codes that are not collected; null: none.</param>
sealed class ProblemList(IReadOnlySet<string>? passedOver = null)
{
    readonly ConcurrentDictionary<Problem, bool> _found = new();

    public bool IsEmpty => _found.IsEmpty;

    public void Add(string code, SourceSpot spot, string fault, string mend)
    {
        if (passedOver?.Contains(code) != true)
            _found.TryAdd(new Problem(code, spot, fault, mend), true);
    }

    /// <summary>A name that is not known, with the nearest one that is.</summary>
    public void AddUnknown(string code, SourceSpot spot, string what, string written, IEnumerable<string> known)
    {
        var names = known.Distinct(StringComparer.Ordinal).ToList();
        var mend = NearestName.To(written, names) is { } near ? $"Did you mean \"{near}\"?"
            : names.Count is > 0 and <= 12 ? $"Known: {string.Join(", ", names)}."
            : "Write it as it stands where it is defined, or define it.";
        Add(code, spot, $"There is no {what} \"{written}\".", mend);
    }

    public bool Only(IReadOnlySet<string> codes) => _found.Keys.All(p => codes.Contains(p.Code));

    /// <summary>In the order of files and lines.</summary>
    public ImmutableArray<Problem> Sorted() =>
    [
        .. _found.Keys.OrderBy(p => p.Spot.File, StringComparer.Ordinal).ThenBy(p => p.Spot.Line).ThenBy(p => p.Spot.Column)
            .ThenBy(p => p.Code, StringComparer.Ordinal).ThenBy(p => p.Fault, StringComparer.Ordinal),
    ];
}
