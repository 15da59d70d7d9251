using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Stepping;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Web.Editions;

namespace EarHelp.Cli.Commands;

/// <summary>The edition that a command works with, compiled from the Markdown of a root folder.</summary>
public sealed record OpenedEdition(Edition Edition, Assessor Assessor, ImmutableArray<SourceFile> Sources)
{
    /// <summary>The edition, or null after its faults were written: an edition with one fault decides nothing.</summary>
    public static OpenedEdition? Open(string? root, Terminal terminal)
    {
        ArgumentNullException.ThrowIfNull(terminal);
        var sources = SourceFolder.Read(RootFolder.Find(root, terminal));
        var compiled = EditionCompiler.Compile(sources, NeededByProgram.On(null));
        if (compiled is { Edition: { } edition, Assessor: { } assessor })
            return new OpenedEdition(edition, assessor, sources);
        foreach (var problem in compiled.Problems)
            terminal.Error.WriteLine(problem);
        return null;
    }

    /// <summary>With what conversations need besides.</summary>
    public ServedEdition Served { get; } = new(Edition, Assessor);

    /// <exception cref="WrongUseException">There is no such language.</exception>
    public Wording WordingOf(string language) =>
        Edition.Wordings.TryGetValue(language, out var wording)
            ? wording
            : throw new WrongUseException($"there is no language \"{language}\" in content/; there is {string.Join(", ", Edition.Wordings.Keys.Order(StringComparer.Ordinal))}.");
}
