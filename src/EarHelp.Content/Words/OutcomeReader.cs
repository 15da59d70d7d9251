using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads the words of a level's outcome, by its third-level headings.</summary>
static class OutcomeReader
{
    static readonly string[] Headings = ["What this means", "What makes it more urgent", "If nobody has answered", "Who decides"];

    /// <param name="hasLimit">The level has a time limit; without one there is no moment that a blank could name.</param>
    public static OutcomeWords Read(Section section, bool hasLimit, ProblemList problems)
    {
        var blanks = hasLimit ? BlankNames.InAnyText : BlankNames.WithoutLimit;
        var reader = new ProseReader(section.Page.Source, blanks, problems);
        var parts = new Dictionary<string, List<PagePart>>(StringComparer.Ordinal) { [""] = [] };
        var current = "";
        foreach (var part in section.Parts)
        {
            if (part is not PagePart.Heading heading)
            {
                parts[current].Add(part);
                continue;
            }

            current = heading.Words;
            if (!Headings.Contains(current))
                problems.AddUnknown(Codes.UnknownPart, heading.Spot, "part of an outcome", current, Headings);
            else if (parts.ContainsKey(current))
                problems.Add(Codes.DoubledName, heading.Spot, $"\"{current}\" stands twice in the outcome \"{section.Name}\".", "Keep one of them.");
            parts.TryAdd(current, []);
        }

        if (parts[""].Count == 0)
            problems.Add(Codes.MissingPart, section.Spot, $"The outcome \"{section.Name}\" has no headline.", "Write a first paragraph below its heading.");
        foreach (var missing in Headings.Where(h => !parts.TryGetValue(h, out var some) || some.Count == 0))
            problems.Add(Codes.MissingPart, section.Spot, $"The outcome \"{section.Name}\" has no \"{missing}\".", $"Add \"### {missing}\" and a paragraph below it.");
        Prose Part(string name) => parts.TryGetValue(name, out var some) ? reader.Read(some, some.FirstOrDefault()?.Spot ?? section.Spot) : Prose.Empty;
        return new OutcomeWords(Part(""), Part(Headings[0]), Part(Headings[1]), Part(Headings[2]), Part(Headings[3]));
    }
}
