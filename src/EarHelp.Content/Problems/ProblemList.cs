using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Problems;

/// <summary>Collects every fault; the compiler never stops at the first.</summary>
sealed class ProblemList
{
    readonly List<Problem> _problems = [];

    public bool IsEmpty => _problems.Count == 0;

    public void Add(string code, SourceSpot spot, string fault, string mend) => _problems.Add(new Problem(code, spot, fault, mend));

    public ImmutableArray<Problem> InReadingOrder() =>
    [
        .. _problems
            .Distinct()
            .OrderBy(p => p.Spot.File, StringComparer.Ordinal)
            .ThenBy(p => p.Spot.Line)
            .ThenBy(p => p.Spot.Column)
            .ThenBy(p => p.Code, StringComparer.Ordinal),
    ];
}
