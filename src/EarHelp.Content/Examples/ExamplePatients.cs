using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Examples;

/// <summary>Runs the example patients of an edition.</summary>
public static class ExamplePatients
{
    /// <summary>Never throws on any files.</summary>
    /// <param name="files">Those that <see cref="SourceFolder.ReadExamples"/> finds.</param>
    public static ExamplesChecked Check(ImmutableArray<SourceFile> files, Edition edition, Assessor assessor)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return Check(files, assessor);
    }

    /// <summary>Of an edition; or of decisions in which only names are missing, to say which patients miss what was taken out.</summary>
    /// <returns>Null after any other fault.</returns>
    public static ExamplesChecked? Check(ImmutableArray<SourceFile> files, Compilation compiled)
    {
        ArgumentNullException.ThrowIfNull(compiled);
        try
        {
            return compiled.Assessor is { } assessor ? Check(files, assessor)
                : compiled.WithoutTheMissing is { } dialog ? Check(files, Assessor.Build(dialog))
                : null;
        }
        catch (DiagramLimitException)
        {
            // Its faults are told without examples.
            return null;
        }
    }

    /// <summary>The same without the words of an edition, also for decisions in which something is missing that an example speaks of.</summary>
    public static ExamplesChecked Check(ImmutableArray<SourceFile> files, Assessor assessor)
    {
        ArgumentNullException.ThrowIfNull(assessor);
        var problems = new ProblemList();
        var examples = new ExampleReader(assessor.Dialog, problems).Read(files);
        var runner = new ExampleRunner(assessor, problems);
        // What could not be read is not run: it would only say the same twice. Where only a name is missing, what comes out without it
        // says for whom it matters.
        var runs = MissingNames.AreAllOfExamples(problems) ? examples.Select(runner.Run).OfType<ExampleRun>().ToImmutableArray() : [];
        return new ExamplesChecked(examples.Length, runs, problems.Sorted());
    }
}

/// <param name="Count">How many examples there are.</param>
/// <param name="Runs">Those that could be run.</param>
/// <param name="Problems">Files that cannot be read, patients who cannot be, and examples that come out otherwise than they must.</param>
public sealed record ExamplesChecked(int Count, ImmutableArray<ExampleRun> Runs, ImmutableArray<Problem> Problems);
