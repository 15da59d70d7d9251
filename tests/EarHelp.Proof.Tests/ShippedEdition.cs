using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Tests;

/// <summary>The edition of this repository.</summary>
static class ShippedEdition
{
    public static string Root { get; } = FindRoot();

    public static ImmutableArray<SourceFile> Sources { get; } = SourceFolder.Read(Root);

    public static Edition Whole { get; } = EditionCompiler.Compile(Sources, CompileOptions.Plain).Edition ?? throw new InvalidOperationException("The shipped edition has faults.");

    static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("EarHelp.sln stands in no folder above the tests.");
    }
}
