using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>A second-level heading and what stands below it.</summary>
sealed record Section(Page Page, string Name, SourceSpot Spot, ImmutableArray<PagePart> Parts)
{
    public IEnumerable<PageTable> Tables => Parts.OfType<PagePart.Table>().Select(t => t.Content);

    /// <summary>The sections of a page; text above the first is for its authors.</summary>
    public static ImmutableArray<Section> Of(Page page, ProblemList problems)
    {
        var sections = ImmutableArray.CreateBuilder<Section>();
        PagePart.Heading? heading = null;
        var parts = ImmutableArray.CreateBuilder<PagePart>();
        foreach (var part in page.Parts)
        {
            if (part is PagePart.Heading { Level: <= 2 } next)
            {
                Close();
                heading = next.Level == 2 ? next : null;
                continue;
            }

            if (heading is not null)
                parts.Add(part);
            else if (part is PagePart.Table)
                problems.Add(Codes.TextOutsideSection, part.Spot, "The table belongs to no section.", "Put a heading \"## name\" above it that says what it belongs to.");
        }

        Close();
        if (sections.Count == 0)
            problems.Add(Codes.TextOutsideSection, page.Source.SpotAt(0), "The file has no section.", "Put a heading \"## name\" above each text.");
        return sections.ToImmutable();

        void Close()
        {
            if (heading is not null)
                sections.Add(new Section(page, heading.Words, heading.Spot, parts.ToImmutable()));
            parts.Clear();
        }
    }
}
