using System.Collections.Immutable;
using EarHelp.Content.Sources;
using NodaTime;

namespace EarHelp.Content.Tests;

/// <summary>A small whole edition of invented content, to break in one place at a time.</summary>
static class SmallSources
{
    public static ImmutableArray<SourceFile> All { get; } = SourceFolder.Read(Path.Combine(AppContext.BaseDirectory, "SmallEdition"));

    /// <summary>A day within the holidays of the small edition, and what a program would need.</summary>
    public static CompileOptions Options { get; } = new(new LocalDate(2026, 11, 25), ["go on"], ["greeting"]);

    public static string TextOf(string path) => System.Text.Encoding.UTF8.GetString(All.Single(f => f.Path == path).Bytes.Span);

    /// <summary>With one file in place of another; without it if there are no bytes.</summary>
    public static ImmutableArray<SourceFile> With(this ImmutableArray<SourceFile> sources, SourceFile file)
    {
        var others = sources.Where(f => f.Path != file.Path);
        return file.Bytes.IsEmpty ? [.. others] : [.. others, file];
    }

    /// <summary>The small edition with one piece of text changed.</summary>
    public static ImmutableArray<SourceFile> Changed(string path, string from, string to)
    {
        var text = TextOf(path);
        Assert.Contains(from, text, StringComparison.Ordinal);
        return All.With(SourceFile.Of(path, text.Replace(from, to, StringComparison.Ordinal)));
    }

    public static Compilation Compile(ImmutableArray<SourceFile> sources) => EditionCompiler.Compile(sources, Options);
}
