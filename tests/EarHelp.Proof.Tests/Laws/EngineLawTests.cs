using EarHelp.Triage.Editions;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.Laws;

/// <summary>The laws hold on a thousand small editions, and three faults against each are caught.</summary>
public sealed class EngineLawTests
{
    const int Editions = 1000;

    delegate bool Law(Dialog dialog, RandomDialog chance, Engine engine);

    [Fact]
    public void Floor_holds_and_its_seeded_faults_are_caught() =>
        HoldsAndCatches(EngineLaws.Floor, SeededFaults.LeastUrgentRowWins, SeededFaults.ForgetsTheLastRow, SeededFaults.WantsTheLastConditionNeverMet);

    [Fact]
    public void Unsure_holds_and_its_seeded_faults_are_caught() =>
        HoldsAndCatches(EngineLaws.Unsure, SeededFaults.TakesTheFirstMember, SeededFaults.TakesTheLastMember, SeededFaults.LeavesOutTheLastMember);

    [Fact]
    public void Stop_holds_and_its_seeded_faults_are_caught() =>
        HoldsAndCatches(EngineLaws.Stop, SeededFaults.StopsOnceTheLevelIsSettled, SeededFaults.AsksNothingForAdvice, SeededFaults.AsksNothingForTreatment);

    [Fact]
    public void Clock_holds_and_its_seeded_faults_are_caught() =>
        HoldsAndCatches(EngineLaws.Clock, SeededFaults.TakesTheFirstMember, SeededFaults.TakesTheLastMember, SeededFaults.LeavesOutTheLastMember);

    static void HoldsAndCatches(Law law, params Func<Dialog, Engine>[] faults)
    {
        Assert.Equal(-1, FirstBroken(law, Engine.Real));
        Assert.All(faults, fault => Assert.NotEqual(-1, FirstBroken(law, fault)));
    }

    /// <summary>The seed of the first edition for which the engine breaks the law, or -1.</summary>
    static int FirstBroken(Law law, Func<Dialog, Engine> engine)
    {
        for (var seed = 120_000; seed < 120_000 + Editions; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            if (!law(dialog, chance, engine(dialog)))
                return seed;
        }

        return -1;
    }
}
