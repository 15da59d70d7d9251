using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Web.Editions;

namespace EarHelp.Content.Tests.Editions;

/// <summary>Each file of the clinic's own folders, broken in each way that it can be: a clear message, and never an edition.</summary>
public sealed class TwentyWaysTests
{
    static readonly ImmutableArray<SourceFile> Sources = SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!);
    const int OneAnswerOf = 20;

    /// <summary>Pages that answer what people ask are alike: one of twenty stands for the others.</summary>
    static readonly ImmutableArray<SourceFile> ToBreak = [.. Sources.Where(f => !IsAnswer(f)), .. Sources.Where(IsAnswer).Where((_, i) => i % OneAnswerOf == 0)];

    static readonly CompileOptions Options = NeededByProgram.On(null);
    static readonly KeptPages Pages = new();
    static readonly string[] Jargon = ["exception", "null", "token", "parse", "yaml", "markdig", "regex", "index"];

    public static TheoryData<string> Ways => [.. Breaks.OfText.Select(b => b.Name), .. Breaks.OfFile.Select(b => b.Name)];

    [Theory]
    [MemberData(nameof(Ways))]
    public void A_broken_file_is_told_with_its_place_and_how_to_mend_it(string way)
    {
        var unclear = new ConcurrentBag<string>();
        Parallel.ForEach(ToBreak, file =>
        {
            if (Broken(file, way) is not { } broken)
                return;
            var compiled = EditionCompiler.Compile(broken, Options, Pages.Read);
            if (compiled.Edition is not null || compiled.Problems.IsEmpty)
                unclear.Add($"{file.Path}: no fault");
            foreach (var problem in compiled.Problems.Where(p => !IsClear(p)))
                unclear.Add($"{file.Path}: unclear: {problem}");
            if (way != "gone" && !compiled.Problems.Any(p => Names(p, file.Path[..^3])))
                unclear.Add($"{file.Path}: told elsewhere only: {compiled.Problems.FirstOrDefault()}");
        });

        Assert.True(unclear.IsEmpty, string.Join('\n', unclear.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void Every_file_can_be_broken_in_twenty_ways()
    {
        var names = Breaks.OfText.Select(b => b.Name).Concat(Breaks.OfFile.Select(b => b.Name)).ToList();

        Assert.All(ToBreak, f => Assert.InRange(names.Count(n => Broken(f, n) is not null), 20, names.Count));
    }

    static bool IsAnswer(SourceFile file) => file.Path.Contains("/answers/", StringComparison.Ordinal);

    /// <summary>Null if the way breaks nothing in this file; an answer may be taken out, whatever its reason.</summary>
    static ImmutableArray<SourceFile>? Broken(SourceFile file, string way)
    {
        if (way == "gone" && IsAnswer(file))
            return null;
        var ofText = Breaks.OfText.FirstOrDefault(b => b.Name == way).Break;
        if (ofText is not null)
        {
            var text = Breaks.TextOf(file);
            return ofText(text) is { } broken && broken != text ? Sources.Replace(file, SourceFile.Of(file.Path, broken)) : null;
        }

        var changed = Breaks.OfFile.First(b => b.Name == way).Break(file);
        return changed is null ? Sources.Remove(file) : changed.Path == file.Path ? Sources.Replace(file, changed) : Sources.Add(changed);
    }

    static bool Names(Problem problem, string file) =>
        problem.ToString().Contains(file, StringComparison.Ordinal);

    static bool IsClear(Problem problem) =>
        problem is { Spot: { File.Length: > 0, Line: > 0, Column: > 0 }, Fault.Length: > 10, Mend.Length: > 10 }
        && problem.Fault.TrimEnd('"', ')').EndsWith('.')
        && ProblemPages.Codes.Contains(problem.Code)
        && !Array.Exists(Jargon, j => problem.Fault.Contains(j, StringComparison.OrdinalIgnoreCase));
}
