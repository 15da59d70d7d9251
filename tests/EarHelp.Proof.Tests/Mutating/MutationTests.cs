using EarHelp.Proof.Mutating;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Tests.SecondOpinion;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.Mutating;

public sealed class MutationTests
{
    [Fact]
    public void A_mutant_changes_nothing_exactly_if_enumeration_finds_nobody_who_gets_another_result()
    {
        for (var seed = 140_000; seed < 140_030; seed++)
        {
            var dialog = new RandomDialog(seed).Make();
            var space = new MutantSpace(dialog, FactNames.Of());
            var patients = new CountedPatients(dialog).Assignments;
            foreach (var mutant in Mutations.Of(dialog))
            {
                var effect = space.EffectOf(mutant);

                Assert.Equal(DiffersForSomebody(dialog, mutant.Dialog, patients), effect is not null);
                Assert.Equal(LowersForSomebody(dialog, mutant.Dialog, patients), effect is { Kind: MutantEffectKind.LowersUrgency });
            }
        }
    }

    [Fact]
    public void What_nothing_notices_is_told_with_the_example_that_is_missing()
    {
        var lowered = Mutations.Of(SmallEdition.Whole.Dialog).Single(m => m.What.StartsWith("row \"N3.1\": \"within a day\" lowered", StringComparison.Ordinal));

        var report = new MutationRun(SmallEdition.Whole, (_, _) => false).Of([lowered]);

        var survivor = Assert.Single(report.Dangerous);
        Assert.Matches("""lowers urgency\. Missing example: .*bleeding: oozing, hours since the nip: \d+ hours.* \(now "within a day", then "within three days"\)\.""", survivor.ToString());
    }

    [Fact]
    public void An_example_that_comes_out_otherwise_notices_a_mutant()
    {
        var dropped = Mutations.Of(SmallEdition.Whole.Dialog).Where(m => m.What == "row \"N2\" dropped").ToArray();

        var report = new MutationRun(SmallEdition.Whole, (_, _) => true).Of([.. dropped]);

        Assert.Equal(1, report.Count(Noticed.ByExample));
        Assert.Empty(report.Survivors);
    }

    [Fact]
    public void A_step_that_changes_nothing_for_anyone_is_no_survivor()
    {
        var rule = SmallEdition.Whole.Dialog.Rules[0];
        var same = new Mutant(MutationStep.SwapRows, "nothing changed", rule.Spot, SmallEdition.Whole.Dialog with { Rules = [.. SmallEdition.Whole.Dialog.Rules] });

        var report = new MutationRun(SmallEdition.Whole, (_, _) => false).Of([same]);

        Assert.Equal(1, report.Count(Noticed.Equivalent));
        Assert.Empty(report.Survivors);
    }

    [Fact]
    public void A_property_notices_a_bound_that_makes_a_worse_answer_less_urgent()
    {
        var flipped = Mutations.Of(SmallEdition.Whole.Dialog).Single(m => m.What == "row \"N2\": \"bleeding: pumping\" flipped");

        var report = new MutationRun(SmallEdition.Whole, (_, _) => false).Of([flipped]);

        Assert.Equal(1, report.Count(Noticed.ByProperty));
    }

    static bool DiffersForSomebody(Dialog before, Dialog after, int[][] patients)
    {
        var (old, now) = (new PlainReading(before), new PlainReading(after));
        return patients.Any(p => old.IsPossible(p) != now.IsPossible(p) || (old.IsPossible(p) && !Told(before, old, p).SequenceEqual(Told(after, now, p))));
    }

    static bool LowersForSomebody(Dialog before, Dialog after, int[][] patients)
    {
        var (old, now) = (new PlainReading(before), new PlainReading(after));
        return patients.Where(old.IsPossible).Any(p => !now.IsPossible(p) || now.Read(p).Rank > old.Read(p).Rank);
    }

    /// <summary>The level, the places in their order, what has to happen first, the items that are shown, the warnings.</summary>
    static string[] Told(Dialog dialog, PlainReading reading, int[] patient)
    {
        var result = reading.Read(patient);
        var matching = dialog.Rules.Where(r => reading.Matches(r, patient)).ToArray();
        var deciding = matching.Where(r => r.Level is not null).OrderBy(r => r.Level).ThenBy(r => r.Index).First();
        return
        [
            $"{result.Rank}: {string.Join(',', deciding.Where.Where(result.Where.Contains))}",
            dialog.TreatRules.FirstOrDefault(t => t.Conditions.All(c => reading.Holds(c, patient)))?.Hold ?? "",
            .. dialog.Advice.Where(a => result.Advice[a.Index] && (result.Rank > 0 || !a.HasGate)).Select(a => a.Id),
            .. matching.SelectMany(r => r.Warn).Distinct(),
        ];
    }
}
