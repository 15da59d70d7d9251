using System.Collections.Immutable;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>A second-level heading and what stands below it.</summary>
sealed record Section(string Name, SourceSpot Spot, ImmutableArray<PagePart> Parts)
{
    public IEnumerable<PagePart.Passage> Passages => Parts.OfType<PagePart.Passage>();

    public static ImmutableArray<Section> Of(Page page, int level = 2) => Of(page.Parts, level);

    public static ImmutableArray<Section> Of(ImmutableArray<PagePart> parts, int level)
    {
        var sections = ImmutableArray.CreateBuilder<Section>();
        for (var i = 0; i < parts.Length; i++)
        {
            if (parts[i] is not PagePart.Heading heading || heading.Level != level)
                continue;
            var below = parts.Skip(i + 1).TakeWhile(p => p is not PagePart.Heading next || next.Level > level);
            sections.Add(new Section(heading.Text, heading.Spot, [.. below]));
        }

        return sections.ToImmutable();
    }

    /// <summary>What stands before the first heading of a deeper level.</summary>
    public IEnumerable<PagePart.Passage> Opening => Parts.TakeWhile(p => p is not PagePart.Heading).OfType<PagePart.Passage>();

    /// <summary>The passage that begins with the label, without it; null if there is none.</summary>
    public PagePart.Passage? Labelled(string label)
    {
        var mark = $"**{label}:**";
        return Passages.FirstOrDefault(p => p.Source.StartsWith(mark, StringComparison.Ordinal)) is { } found
            ? new PagePart.Passage(found.Source[mark.Length..].Trim(), found.Spot)
            : null;
    }
}
