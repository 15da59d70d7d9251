using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Examples;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Seeing;

namespace EarHelp.Cli.Describing;

/// <summary>A rule for a clinician at the terminal: in words, an example, everything that tests it.</summary>
static class ExplanationText
{
    public static string Write(RuleExplanation explained, ImmutableArray<ExampleRun> runs)
    {
        var rule = explained.Rule;
        var text = new StringBuilder();
        text.AppendLine($"{rule.Id} ({rule.Spot.File}:{rule.Spot.Line}), table \"{rule.Table}\"");
        text.AppendLine($"  {explained.InWords}");
        text.AppendLine($"  Sources: {string.Join(", ", rule.Sources)}; sure: {rule.Sure}.");
        if (!rule.AlsoSaidBy.IsEmpty)
            text.AppendLine($"  Also said by: {string.Join(", ", rule.AlsoSaidBy)}.");
        text.AppendLine($"  Stands on: {string.Join(", ", explained.StandsOn)}.");
        text.AppendLine($"  Met by {Amount.InWords(explained.Meeting)} possible patients; gives the level to {Amount.InWords(explained.Deciding)}.");
        if ((explained.Decided ?? explained.Met) is { } shown)
            text.AppendLine($"  For example: {shown.InWords}.").AppendLine($"    {shown.Json}");
        text.AppendLine("  Tested by:");
        var tests = runs.Select(r => (Run: r, Match: r.Result.Rules.FirstOrDefault(m => m.Rule == rule.Index))).Where(t => t.Match is not null).ToArray();
        foreach (var (run, match) in tests.OrderByDescending(t => t.Match!.Decides))
            text.AppendLine($"    {(match!.Decides ? "decides" : "meets")}: {run.Example.Name} ({run.Example.Spot.File}:{run.Example.Spot.Line})");
        if (tests.Length == 0)
            text.AppendLine("    no example patient");
        return text.ToString();
    }
}
