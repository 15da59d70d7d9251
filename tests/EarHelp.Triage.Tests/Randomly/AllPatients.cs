using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;

namespace EarHelp.Triage.Tests.Randomly;

/// <summary>Every patient of a small dialog, by plain counting.</summary>
public static class AllPatients
{
    /// <summary>Every way of answering the facts that were not asked; asked facts stand at -1.</summary>
    public static IEnumerable<int[]> Completions(Dialog dialog, ImmutableArray<Answer> answers) =>
        Product(dialog.Facts.Select(f => answers[f.Index] is Answer.Asked ? [-1] : Enumerable.Range(0, f.Values.Count).ToArray()).ToArray());

    /// <summary>Every member of the sets of the asked facts, with one completion of the others.</summary>
    public static IEnumerable<int[]> Members(Dialog dialog, ImmutableArray<Answer> answers, int[] completion) =>
        Product(
            dialog.Facts.Select(f => answers[f.Index] is Answer.Asked asked
                ? Enumerable.Range(0, f.Values.Count).Where(asked.MayBe.Contains).ToArray()
                : [completion[f.Index]]).ToArray());

    static IEnumerable<int[]> Product(int[][] choices)
    {
        var at = new int[choices.Length];
        while (true)
        {
            yield return [.. at.Select((c, i) => choices[i][c])];
            var place = choices.Length - 1;
            while (place >= 0 && ++at[place] == choices[place].Length)
                at[place--] = 0;
            if (place < 0)
                yield break;
        }
    }
}
