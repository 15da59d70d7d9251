using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Tests;

/// <summary>A small whole edition of invented content, to break in one place at a time.</summary>
static class SmallEdition
{
    static readonly ImmutableArray<SourceFile> Sources = SourceFolder.Read(Path.Combine(AppContext.BaseDirectory, "SmallEdition"));

    public const string Facts = "dialogs/nip/facts.md", Rules = "dialogs/nip/rules.md", Advice = "dialogs/nip/advice.md", Named = "dialogs/nip/named.md",
        Treat = "dialogs/nip/treat.md", Places = "dialogs/destinations.md";

    public static Edition Whole { get; } = Compile(Sources);

    /// <summary>With pieces of text changed, each in one file.</summary>
    public static Edition Changed(params (string Path, string From, string To)[] changes)
    {
        var sources = Sources;
        foreach (var (path, from, to) in changes)
        {
            var at = sources.Single(f => f.Path == path);
            var text = System.Text.Encoding.UTF8.GetString(at.Bytes.Span);
            Assert.Contains(from, text, StringComparison.Ordinal);
            sources = sources.Replace(at, SourceFile.Of(path, text.Replace(from, to, StringComparison.Ordinal)));
        }

        return Compile(sources);
    }

    public static Edition With(this Edition edition, Func<Dialog, Dialog> change) => edition with { Dialog = change(edition.Dialog) };

    /// <summary>The one error of a broken edition against a property.</summary>
    public static Finding OnlyError(this Edition edition, string breaks)
    {
        var errors = EditionProof.Of(edition).Errors;
        return Assert.Single(errors, f => f.Breaks == breaks);
    }

    static Edition Compile(ImmutableArray<SourceFile> sources)
    {
        var compiled = EditionCompiler.Compile(sources, CompileOptions.Plain);
        Assert.Empty(compiled.Problems);
        return compiled.Edition!;
    }
}
