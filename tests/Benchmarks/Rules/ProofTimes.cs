using System.Diagnostics;
using Benchmarks.Figures;
using EarHelp.Proof;
using EarHelp.Proof.Comparing;
using EarHelp.Triage.Editions;

namespace Benchmarks.Rules;

/// <summary>How long the whole proof of the shipped edition takes, and to compare it with one of which a row was made milder.</summary>
static class ProofTimes
{
    const int Times = 5;

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
        table.Print(Console.Out);
    }

    /// <summary>The first row that is neither the most nor the least urgent, a level lower.</summary>
    static Edition WithMilderRow(Edition edition)
    {
        var dialog = edition.Dialog;
        var rule = dialog.Rules.First(r => r.Level is > 0 && r.Level < dialog.Levels.Length - 1 && !r.IsOtherwise);
        return edition with { Id = edition.Id + "-milder", Dialog = dialog with { Rules = dialog.Rules.SetItem(rule.Index, rule with { Level = rule.Level + 1 }) } };
    }
}
