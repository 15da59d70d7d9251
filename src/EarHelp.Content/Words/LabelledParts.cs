using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>The labelled paragraphs of a section: <c>**Ask:** …</c>.</summary>
sealed class LabelledParts
{
    readonly Dictionary<string, Prose> _parts = new(StringComparer.Ordinal);

    public Prose Of(string label) => _parts.GetValueOrDefault(label, Prose.Empty);

    /// <summary>The words of a labelled paragraph on one line, as written; null if there is none.</summary>
    public string? LineOf(string label) => _parts.TryGetValue(label, out var prose) ? PlainWords.Of(prose).Trim() : null;

    /// <param name="restLabel">Where text without a label goes; null: to the label before it.</param>
    public static LabelledParts Read(Section section, ProseReader reader, string[] labels, string? restLabel, ProblemList problems)
    {
        var found = new LabelledParts();
        string? current = restLabel;
        foreach (var part in section.Parts)
        {
            if (part is PagePart.Heading)
                problems.Add(Codes.UnknownPart, part.Spot, "A heading stands inside the section.", "Headings inside are only for outcomes.");
            if (part is not PagePart.Text)
                continue;
            var prose = reader.Read([part], part.Spot);
            if (TakeLabel(prose) is { } labelled)
            {
                current = labelled.Label;
                if (!labels.Contains(current))
                    problems.AddUnknown(Codes.UnknownPart, part.Spot, "label", current, labels);
                else if (found._parts.ContainsKey(current))
                    problems.Add(Codes.DoubledName, part.Spot, $"\"{current}:\" stands twice in the section \"{section.Name}\".", "Keep one of them.");
                prose = labelled.Words;
            }
            else if (current is null)
            {
                problems.Add(Codes.UnknownPart, part.Spot, $"The paragraph in the section \"{section.Name}\" has no label.", $"Begin it with one of: {string.Join(", ", labels.Select(l => $"**{l}:**"))}.");
                continue;
            }
            else if (restLabel is not null)
            {
                current = restLabel;
            }

            found._parts[current] = found._parts.TryGetValue(current, out var before) ? new Prose([.. before.Blocks, .. prose.Blocks], before.Spot) : prose;
        }

        return found;
    }

    static (string Label, Prose Words)? TakeLabel(Prose prose)
    {
        if (prose.Blocks is not [Block.Paragraph paragraph] || paragraph.Inlines is not [Inline.Run { IsStrong: true } first, ..] || !first.Text.EndsWith(':'))
            return null;
        ImmutableArray<Inline> rest = paragraph.Inlines[1..];
        if (rest is [Inline.Run next, ..])
            rest = next.Text.TrimStart().Length == 0 ? rest[1..] : rest.SetItem(0, next with { Text = next.Text.TrimStart() });
        return (first.Text[..^1].Trim(), rest.IsEmpty ? Prose.Empty : new Prose([new Block.Paragraph(rest)], prose.Spot));
    }
}
