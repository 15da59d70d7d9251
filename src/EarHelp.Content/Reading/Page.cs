using System.Collections.Immutable;
using EarHelp.Triage.Texts;
using MarkdownBlock = Markdig.Syntax.Block;

namespace EarHelp.Content.Reading;

/// <summary>One file: its settings, and what stands below them in order.</summary>
sealed record Page(SourceText Source, Settings Settings, ImmutableArray<PagePart> Parts)
{
    public string Path => Source.Path;

    /// <summary>Nothing stands in the file; that was reported.</summary>
    public bool IsEmpty { get; init; }

    public IEnumerable<PageTable> Tables => Parts.OfType<PagePart.Table>().Select(t => t.Content);
}

/// <summary>A piece of a page.</summary>
abstract record PagePart(SourceSpot Spot)
{
    public sealed record Heading(int Level, string Words, SourceSpot Spot) : PagePart(Spot);

    public sealed record Table(PageTable Content) : PagePart(Content.Spot);

    /// <summary>A paragraph, a list, or something that does not belong into words.</summary>
    public sealed record Text(MarkdownBlock Content, SourceSpot Spot) : PagePart(Spot);
}
