using System.Collections.Frozen;
using System.Numerics;
using EarHelp.Proof.Comparing;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>Comparisons of small editions held against plain enumeration of the patients of both.</summary>
public sealed class RandomComparisonTests
{
    [Fact]
    public void Levels_change_for_exactly_those_whom_enumeration_finds()
    {
        for (var seed = 90_000; seed < 90_300; seed++)
        {
            var before = new RandomDialog(seed).Make();
            var after = Edited(before, seed);
            var (old, now) = (new PlainReading(before), new PlainReading(after));
            var patients = new CountedPatients(before).Possible;

            var comparison = EditionComparison.Of(AsEdition(before), AsEdition(after));

            var flow = patients.GroupBy(p => (before.Levels[old.Read(p).Rank].Id, after.Levels[now.Read(p).Rank].Id)).ToDictionary(g => g.Key, g => (BigInteger)g.Count());
            Assert.Equal(flow.OrderBy(f => f.Key).ToArray(), comparison.Flow.Select(f => KeyValuePair.Create((f.Before, f.After), f.Patients)).OrderBy(f => f.Key).ToArray());
            var shown = before.Advice.ToDictionary(a => a.Id, a => (BigInteger)patients.Count(p => !IsShown(before, old, a, p) && IsShown(after, now, a, p)));
            foreach (var item in before.Advice)
            {
                var gained = comparison.Changes.Where(c => c.Kind is ChangeKind.AdviceWidened or ChangeKind.ProtectionAdded && c.Before == $"{item.Id}: shown to more");
                Assert.Equal(shown[item.Id], gained.Aggregate(BigInteger.Zero, (sum, c) => sum + c.Patients));
            }
        }
    }

    static bool IsShown(Dialog dialog, PlainReading reading, AdviceItem item, int[] patient)
    {
        var result = reading.Read(patient);
        return result.Advice[item.Index] && (result.Rank > 0 || !dialog.Advice[item.Index].HasGate);
    }

    /// <summary>One or two rows changed: another level, a condition dropped, a row taken out.</summary>
    static Dialog Edited(Dialog dialog, int seed)
    {
        var row = dialog.Rules[seed % (dialog.Rules.Length - 1)];
        var edited = (seed % 3) switch
        {
            0 => row with { Level = ((row.Level ?? 0) + 1) % dialog.Levels.Length },
            1 => row with { Conditions = row.Conditions.RemoveAt(0) is { IsEmpty: false } fewer ? fewer : [row.Conditions[0] with { Values = ValueSet.Of(0) }] },
            _ => row with { Conditions = [row.Conditions[0] with { Values = ValueSet.Empty }] },
        };
        return dialog with { Rules = dialog.Rules.SetItem(row.Index, edited) };
    }

    static Edition AsEdition(Dialog dialog) => SmallEdition.Whole with { Dialog = dialog, Wordings = FrozenDictionary<string, Wording>.Empty };
}
