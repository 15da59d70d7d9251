using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Examples;
using EarHelp.Content.Reviews;
using EarHelp.Content.Sources;
using EarHelp.Proof;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;

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
        return compiled is { Edition: { } edition, Assessor: { } assessor }
            ? new EditionCheck(sources.Length, compiled, ExamplePatients.Check(SourceFolder.ReadExamples(root), edition, assessor), EditionProof.Of(edition)) { Due = due }
            : new EditionCheck(sources.Length, compiled, WithoutTheMissing(root, compiled), null) { Due = due };
    }

    /// <summary>Which example patients miss a row or a question that is not there any more: more than its name says.</summary>
    static ExamplesChecked? WithoutTheMissing(string root, Compilation compiled)
    {
        try
        {
            return compiled.WithoutTheMissing is { } dialog ? ExamplePatients.Check(SourceFolder.ReadExamples(root), Assessor.Build(dialog)) : null;
        }
        catch (DiagramLimitException)
        {
            // Its faults are told without examples.
            return null;
        }
    }

    public ImmutableArray<CheckedFinding> Findings =>
    [
        .. Compiled.Problems.Select(CheckedFinding.Of),
        .. (Examples?.Problems ?? []).Select(CheckedFinding.Of),
        .. (Report?.Findings ?? []).Select(CheckedFinding.Of),
    ];

    public bool IsFine => Findings.All(f => f.IsNotice);
}
