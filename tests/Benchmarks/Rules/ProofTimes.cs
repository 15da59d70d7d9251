using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using Benchmarks.Figures;
using EarHelp.Proof;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Tests.Randomly;

namespace Benchmarks.Rules;

/// <summary>
/// How long the whole proof of the shipped edition takes, to compare it with one of which a row was made milder, and to prove dialogs with
/// several times as many rules and facts; beside a constraint solver and enumeration in the same run.
/// </summary>
static class ProofTimes
{
    const int Times = 5, DrawnPatients = 2_000, FirstSmall = 100_000, SmallEditions = 100, GrowthNodes = 60_000_000;

    static readonly int[] Growths = [2, 4, 8];

    public static void Run()
    {
        var edition = ShippedEdition.Compile().Edition!;
        var milder = WithMilderRow(edition);
        var (proofs, comparisons) = (new Samples(), new Samples());
        ProofReport? report = null;
        for (var i = 0; i < Times; i++)
        {
            proofs.Time(() => report = EditionProof.Of(edition));
            comparisons.Time(() => EditionComparison.Of(edition, milder));
        }

        using var process = Process.GetCurrentProcess();
        var table = new FigureTable("proof");
        table.Add($"whole proof of the shipped edition, median of {Times}", FigureTable.Of(proofs.Median / 1000, "ms"), "at most 2 000 ms");
        table.Add("the first time, with everything cold", FigureTable.Of(proofs.First / 1000, "ms"), "");
        table.Add("diagram nodes of the proof", FigureTable.Of(report!.Nodes, "nodes"), "");
        table.Add($"comparing two editions, median of {Times}", FigureTable.Of(comparisons.Median / 1000, "ms"), "at most 2 000 ms");
        table.Add("the first time, with everything cold", FigureTable.Of(comparisons.First / 1000, "ms"), "");
        table.Add("the most memory that was in use, resident", FigureTable.Of(process.PeakWorkingSet64 / 1_000_000.0, "MB"), "at most 300 MB for the proof");
        AddOtherWays(table, edition.Dialog, report, proofs.Median);
        AddGrowth(table, edition.Dialog);
        table.Print(Console.Out);
    }

    static void AddOtherWays(FigureTable table, Dialog dialog, ProofReport report, double proofMicroseconds)
    {
        var solver = OtherWays.AskSolver(dialog);
        table.Add("the solver (CP-SAT), without counts, examples, no harm and length", FigureTable.Of(solver.TotalMilliseconds, "ms"), "");
        table.Add("the solver by the whole proof", FigureTable.Of(solver.TotalMicroseconds / proofMicroseconds, "times"), "");
        var each = OtherWays.ReadEach(dialog, DrawnPatients) / DrawnPatients;
        table.Add("enumeration, one patient", FigureTable.Of(each.TotalMicroseconds, "\u00b5s"), "");
        table.Add("enumeration, all patients of the shipped edition", string.Create(CultureInfo.InvariantCulture, $"10^{BigInteger.Log10(report.Patients) + Math.Log10(each.TotalDays / 365):0} years"), "");

        var small = Enumerable.Range(FirstSmall, SmallEditions).Select(seed => new RandomDialog(seed).Make()).ToArray();
        var (proof, enumeration) = (new Samples(), new Samples());
        var patients = 0L;
        proof.Time(() => Array.ForEach(small, d => EditionProof.Of(d)));
        enumeration.Time(() => patients = small.Sum(d => (long)OtherWays.CountEach(d)));
        table.Add($"{SmallEditions} small editions, {patients} patients: the whole proof of each", FigureTable.Of(proof.First / 1000, "ms"), "");
        table.Add("the same: enumeration, the results alone", FigureTable.Of(enumeration.First / 1000, "ms"), "");
    }

    static void AddGrowth(FigureTable table, Dialog dialog)
    {
        foreach (var times in Growths)
        {
            var grown = GrownDialog.Of(dialog, times);
            var taken = new Samples();
            ProofReport? report = null;
            taken.Time(() => report = EditionProof.Of(grown, GrowthNodes));
            var stopped = report!.Findings.OfType<NotFinished>().Any() ? "stopped at " : "";
            table.Add($"{times} times: {grown.Facts.Length} facts, {grown.Rules.Length} rules, {stopped}{FigureTable.Of(report.Nodes, "nodes")}", FigureTable.Of(taken.First / 1000, "ms"), "must not explode");
        }
    }

    /// <summary>The first row that is neither the most nor the least urgent, a level lower.</summary>
    static Edition WithMilderRow(Edition edition)
    {
        var dialog = edition.Dialog;
        var rule = dialog.Rules.First(r => r.Level is > 0 && r.Level < dialog.Levels.Length - 1 && !r.IsOtherwise);
        return edition with { Id = edition.Id + "-milder", Dialog = dialog with { Rules = dialog.Rules.SetItem(rule.Index, rule with { Level = rule.Level + 1 }) } };
    }
}
