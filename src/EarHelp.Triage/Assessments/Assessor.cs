using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Triage.Assessments;

/// <summary>Decides over answers by the compiled tables of a dialog. Immutable to its callers; may be shared by threads.</summary>
public sealed class Assessor
{
    readonly DialogDiagrams _diagrams;
    readonly ConcurrentBag<Restriction> _restrictions = [];
    readonly ScreenChoice _screens;
    readonly Lazy<LevelWalk> _level;

    Assessor(Dialog dialog, DialogDiagrams diagrams)
    {
        Dialog = dialog;
        _diagrams = diagrams;
        _screens = new ScreenChoice(dialog, diagrams);
        _level = new Lazy<LevelWalk>(() => new LevelWalk(diagrams.Nodes, diagrams.OfPossible.Level));
    }

    public Dialog Dialog { get; }

    /// <summary>How many diagram nodes all decisions take together.</summary>
    public int NodeCount => _diagrams.Nodes.Count;

    /// <exception cref="DiagramLimitException">The tables are larger than a stated bound.</exception>
    public static Assessor Build(Dialog dialog)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        return new Assessor(dialog, DialogDiagrams.Build(dialog));
    }

    /// <param name="ears">One ear, or both; the person's facts are the same in each.</param>
    public Assessment Assess(ImmutableArray<EarAnswers> ears)
    {
        var restriction = Rent();
        try
        {
            var results = new List<EarResult>(ears.Length);
            foreach (var ear in ears)
                results.Add(new EarResult(Dialog, _diagrams, restriction, ear));
            return Combination.Of(Dialog, _diagrams, results);
        }
        finally
        {
            _restrictions.Add(restriction);
        }
    }

    /// <summary>The most urgent and the least urgent rank still possible: the cheap part of <see cref="Assess"/>.</summary>
    public (int AtMost, int AtLeast) BoundsOf(ImmutableArray<EarAnswers> ears)
    {
        var restriction = Rent();
        try
        {
            var (atMost, atLeast) = (int.MaxValue, int.MaxValue);
            Span<ulong> known = stackalloc ulong[_diagrams.Arity.Length];
            foreach (var ear in ears)
            {
                KnownClasses.Fill(_diagrams, ear, known);
                restriction.Begin(known);
                if (_diagrams.RootsUnder(restriction) is not { } roots)
                    continue;
                var ends = restriction.EndsOf(restriction.Of(roots.Level, Merge.Least));
                atMost = Math.Min(atMost, ends.Min(Terminal.ValueOf));
                atLeast = Math.Min(atLeast, ends.Max(Terminal.ValueOf));
            }

            return atMost == int.MaxValue ? (0, Dialog.Levels.Length - 1) : (atMost, atLeast);
        }
        finally
        {
            _restrictions.Add(restriction);
        }
    }

    /// <summary>The next question, or null when no answer can change the result any more.</summary>
    public ScreenToAsk? NextScreen(ImmutableArray<EarAnswers> ears)
    {
        var restriction = Rent();
        try
        {
            return _screens.Next(ears, restriction);
        }
        finally
        {
            _restrictions.Add(restriction);
        }
    }

    /// <summary>The class of values of each fact, when every fact has exactly one; for <see cref="LevelOf"/>.</summary>
    public int[] ClassesOf(EarAnswers ear)
    {
        ArgumentNullException.ThrowIfNull(ear);
        var known = new ulong[_diagrams.Arity.Length];
        KnownClasses.Fill(_diagrams, ear, known);
        return [.. known.Select(k => System.Numerics.BitOperations.TrailingZeroCount(k))];
    }

    /// <summary>The rank of the level of a full set of answers; null if they cannot stand together.</summary>
    public int? LevelOf(ReadOnlySpan<int> classes)
    {
        var end = _level.Value.EndOf(classes);
        return end == Terminal.Impossible ? null : Terminal.ValueOf(end);
    }

    Restriction Rent() => _restrictions.TryTake(out var free) ? free : new Restriction(_diagrams);
}
