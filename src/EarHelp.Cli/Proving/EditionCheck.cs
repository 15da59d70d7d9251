using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Examples;
using EarHelp.Content.Reviews;
using EarHelp.Content.Sources;
using EarHelp.Proof;

namespace EarHelp.Cli.Proving;

/// <summary>Everything that is checked of an edition: its files, its example patients, its properties.</summary>
/// <param name="Files">How many files were read.</param>
/// <param name="Examples">Null if the files have faults other than names that are not there.</param>
/// <param name="Report">Null if the files have faults: nothing is proven then.</param>
public sealed record EditionCheck(int Files, Compilation Compiled, ExamplesChecked? Examples, ProofReport? Report)
{
    /// <summary>Pages whose review is overdue: warnings, and no faults.</summary>
    public ImmutableArray<ReviewDue> Due { get; init; } = [];

    public static EditionCheck Of(string root, CompileOptions options)
    {
        var sources = SourceFolder.Read(root);
        var compiled = EditionCompiler.Compile(sources, options);
        var due = options.Today is { } today ? ReviewsDue.Of(sources, today) : [];
        var examples = ExamplePatients.Check(SourceFolder.ReadExamples(root), compiled);
        return new EditionCheck(sources.Length, compiled, examples, compiled.Edition is { } edition ? EditionProof.Of(edition) : null) { Due = due };
    }

    public ImmutableArray<CheckedFinding> Findings =>
    [
        .. Compiled.Problems.Select(CheckedFinding.Of),
        .. (Examples?.Problems ?? []).Select(CheckedFinding.Of),
        .. (Report?.Findings ?? []).Select(CheckedFinding.Of),
    ];

    public bool IsFine => Findings.All(f => f.IsNotice);
}
