using System.Diagnostics;
using System.Text;
using System.Text.Json;
using EarHelp.Cli;
using EarHelp.Conformance.Npm;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Conformance.Dmn;

/// <summary>Sources of the expected answers: npm dmn-moddle 12.2.1 reads the XML, npm feelin 8.2.0 evaluates its cells.</summary>
public sealed class DmnTests
{
    const int Patients = 400;

    [Fact]
    public async Task The_exported_tables_decide_the_same_for_drawn_patients()
    {
        var compiled = EditionCompiler.Compile(SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!), CompileOptions.Plain);
        var dialog = compiled.Edition!.Dialog;
        var patients = DrawnPatient.Draw(compiled.Edition, compiled.Assessor!, Patients);

        var decided = await EvaluateAsync(patients.Select(p => p.ToJson(dialog)));

        Assert.Equal(patients.Length, decided.Length);
        Assert.Empty(patients.Zip(decided).SelectMany(p => Differences(dialog, p.First, p.Second)).Take(5));
        Assert.True(patients.Select(p => p.Result.Level).Distinct().Count() > 3, "The drawn patients reach several levels.");
    }

    static IEnumerable<string> Differences(Dialog dialog, DrawnPatient patient, JsonElement decided)
    {
        var result = patient.Result;
        var level = dialog.Levels[result.Level!.Value];
        if (decided.GetProperty("level").GetString() != level.Id)
            yield return $"level: {level.Id}, DMN {decided.GetProperty("level")} of {patient.ToJson(dialog)}";

        var treat = result.MayTreat is { Hold: { } hold } ? $"not until {hold}" : "yes";
        if (decided.GetProperty("may-treat").GetString() != treat)
            yield return $"may treat: {treat}, DMN {decided.GetProperty("may-treat")} of {patient.ToJson(dialog)}";

        var rows = decided.EnumerateObject().Where(d => d.Name.StartsWith("table-", StringComparison.Ordinal)).SelectMany(d => d.Value.EnumerateArray()).Select(r => r[0].GetString()).Order(StringComparer.Ordinal);
        var ours = result.Rules.Select(r => dialog.Rules[r.Rule]).Where(r => !r.IsOtherwise).Select(r => r.Id).Distinct().Order(StringComparer.Ordinal);
        if (!rows.SequenceEqual(ours))
            yield return $"rows: {string.Join(", ", ours)}, DMN {string.Join(", ", rows)} of {patient.ToJson(dialog)}";

        foreach (var item in dialog.Advice.Where(i => IsToldInTime(i, level)))
        {
            var isShown = result.Advice.Any(a => a.Item == item.Index);
            if (decided.GetProperty(FormattableString.Invariant($"advice-{item.Index + 1}")).GetBoolean() != isShown)
                yield return $"{item.Id}: {isShown} of {patient.ToJson(dialog)}";
        }
    }

    /// <summary>The level that an item waits for is not part of its table.</summary>
    static bool IsToldInTime(AdviceItem item, Level level) => level.Rank > 0 && !(item.NotWhile >= level.Rank);

    static async Task<JsonElement[]> EvaluateAsync(IEnumerable<string> lines)
    {
        var file = Path.Combine(Directory.CreateTempSubdirectory("earhelp").FullName, "tables.dmn");
        await File.WriteAllTextAsync(file, await ExportedAsync());
        var start = new ProcessStartInfo(NpmPackages.Node) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Dmn", "evaluate.mjs"));
        start.ArgumentList.Add(new Uri(NpmPackages.PathOf("dmn-moddle", Path.Combine("dist", "index.js"))).AbsoluteUri);
        start.ArgumentList.Add(new Uri(NpmPackages.PathOf("feelin", Path.Combine("dist", "index.js"))).AbsoluteUri);
        start.ArgumentList.Add(file);
        using var node = Process.Start(start)!;
        var output = node.StandardOutput.ReadToEndAsync();
        foreach (var line in lines)
            await node.StandardInput.WriteLineAsync(line);
        node.StandardInput.Close();
        var answers = await output;
        await node.WaitForExitAsync();
        Assert.Equal(0, node.ExitCode);
        return [.. answers.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(a => JsonDocument.Parse(a).RootElement)];
    }

    static async Task<string> ExportedAsync()
    {
        var output = new StringBuilder();
        await using var writer = new StringWriter(output);
        var terminal = new Terminal(TextReader.Null, writer, TextWriter.Null, AppContext.BaseDirectory);
        Assert.Equal(ExitCode.Fine, await EarHelpCommand.RunAsync(["export"], terminal, TimeProvider.System, CancellationToken.None));
        return output.ToString();
    }
}
