using System.Collections.Immutable;
using System.Diagnostics;
using EarHelp.Conformance.Npm;

namespace EarHelp.Conformance.Feel;

/// <summary>Source of the expected answers: the npm package feelin 8.2.0, an independent evaluator of FEEL (OMG DMN).</summary>
/// <remarks>
/// Null is left out: our rule for what is missing is our own and has its own tests. So are comparisons between kinds, such as
/// "&lt; 3" of a text: feelin gives what JavaScript makes of them, we say that they are never met.
/// </remarks>
public sealed class FeelinTests
{
    [Fact]
    public async Task Cells_of_one_kind_are_met_by_the_same_values()
    {
        var random = new RandomFeel(new Random(20260801));

        var differences = await Differences([.. Enumerable.Range(0, 12_000).Select(_ => random.OfOneKind())]);

        Assert.Empty(differences);
    }

    [Fact]
    public async Task Values_of_another_kind_are_never_the_same()
    {
        var random = new RandomFeel(new Random(20260802));

        var differences = await Differences([.. Enumerable.Range(0, 3_000).Select(_ => random.OfTwoKinds())]);

        Assert.Empty(differences);
    }

    static async Task<ImmutableArray<string>> Differences(ImmutableArray<FeelPair> pairs)
    {
        var answers = await Ask(pairs);
        Assert.Equal(pairs.Length, answers.Length);
        return [.. pairs.Zip(answers).Where(p => Word(p.First.Ours) != p.Second).Select(p => $"{p.First}: {Word(p.First.Ours)}, feelin {p.Second}").Take(20)];
    }

    static async Task<string[]> Ask(ImmutableArray<FeelPair> pairs)
    {
        var start = new ProcessStartInfo(NpmPackages.Node) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Feel", "oracle.mjs"));
        start.ArgumentList.Add(new Uri(NpmPackages.PathOf("feelin", Path.Combine("dist", "index.js"))).AbsoluteUri);
        using var node = Process.Start(start)!;
        var output = node.StandardOutput.ReadToEndAsync();
        foreach (var pair in pairs)
            await node.StandardInput.WriteLineAsync(pair.ToJson());
        node.StandardInput.Close();
        var answers = await output;
        await node.WaitForExitAsync();
        return answers.Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }

    static string Word(bool? answer) => answer switch { true => "true", false => "false", null => "refused" };
}
