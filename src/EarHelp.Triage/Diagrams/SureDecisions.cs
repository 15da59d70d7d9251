using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Triage.Editions;

namespace EarHelp.Triage.Diagrams;

/// <summary>All yes/no decisions for a patient whose every answer is sure, read at once.</summary>
sealed class SureDecisions
{
    readonly SureRoots _roots;

    /// <summary>By root, where its answer belongs: decisions that are the same diagram are read once.</summary>
    readonly ImmutableArray<ImmutableArray<int>> _places;
    readonly ImmutableArray<int?> _waitsFor;
    readonly int _advice;
    readonly int _forbidden;
    readonly int _warnings;
    readonly int _explanations;
    readonly int _all;

    /// <param name="advice">By item: it is called for and nothing forbids it; the level that it waits for is left out.</param>
    public SureDecisions(Dialog dialog, NodeTable nodes, int[] arity, Roots plain, ImmutableArray<int> advice)
    {
        _waitsFor = [.. dialog.Advice.Select(a => a.NotWhile)];
        _advice = plain.Rules.Each.Length;
        _forbidden = _advice + advice.Length;
        _warnings = _forbidden + plain.Forbidden.Each.Length;
        _explanations = _warnings + plain.Warnings.Each.Length;
        _all = _explanations + plain.Explanations.Each.Length;
        int[] all = [.. plain.Rules.Each, .. advice, .. plain.Forbidden.Each, .. plain.Warnings.Each, .. plain.Explanations.Each];
        var alike = all.Select((root, at) => (Root: root, At: at)).GroupBy(r => r.Root, r => r.At).ToArray();
        _places = [.. alike.Select(g => g.ToImmutableArray())];
        _roots = new SureRoots(nodes, arity, [.. alike.Select(g => g.Key)]);
    }

    /// <param name="rank">Rank of the level.</param>
    /// <returns>Null if an answer that is not sure has a say after all.</returns>
    public Decided? Read(Restriction restriction, int rank)
    {
        Span<ulong> isTrue = stackalloc ulong[_roots.Words];
        if (!_roots.Read(restriction, isTrue))
            return null;
        var decided = new Decided(
            new Certainty[_advice],
            new Certainty[_forbidden - _advice],
            new Certainty[_warnings - _forbidden],
            new Certainty[_explanations - _warnings],
            new Certainty[_all - _explanations]);
        for (var word = 0; word < isTrue.Length; word++)
        {
            for (var left = isTrue[word]; left != 0; left &= left - 1)
            {
                foreach (var at in _places[(word * SureRoots.BitsOfWord) + BitOperations.TrailingZeroCount(left)])
                    Set(decided, at, rank);
            }
        }

        return decided;
    }

    void Set(Decided decided, int at, int rank)
    {
        if (at < _advice)
            decided.Rules[at] = Certainty.Certain;
        else if (at < _forbidden)
            decided.Advice[at - _advice] = _waitsFor[at - _advice] is { } until && rank <= until ? Certainty.No : Certainty.Certain;
        else if (at < _warnings)
            decided.Forbidden[at - _forbidden] = Certainty.Certain;
        else if (at < _explanations)
            decided.Warnings[at - _warnings] = Certainty.Certain;
        else
            decided.Explanations[at - _explanations] = Certainty.Certain;
    }
}

/// <summary>How certain each yes/no decision is, by the index of what it decides.</summary>
sealed record Decided(Certainty[] Rules, Certainty[] Advice, Certainty[] Forbidden, Certainty[] Warnings, Certainty[] Explanations);
