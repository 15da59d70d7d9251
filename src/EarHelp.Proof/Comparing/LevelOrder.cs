using System.Collections.Immutable;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Comparing;

/// <summary>The levels of two editions in one order, the most urgent first: the new ones, and each that was taken out before the one that followed it.</summary>
sealed class LevelOrder
{
    readonly ImmutableArray<string> _names;

    public LevelOrder(ImmutableArray<Level> before, ImmutableArray<Level> after)
    {
        var names = after.Select(l => l.Id).ToList();
        foreach (var level in before.Reverse().Where(b => !names.Contains(b.Id)))
        {
            var next = before.Skip(level.Rank + 1).Select(l => names.IndexOf(l.Id)).FirstOrDefault(i => i >= 0, names.Count);
            names.Insert(next, level.Id);
        }

        _names = [.. names];
    }

    public ImmutableArray<string> Names => _names;

    /// <summary>How many levels less urgent; negative: more urgent.</summary>
    public int StepsDown(string before, string after) => _names.IndexOf(after) - _names.IndexOf(before);
}
