using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads what a rule or an item rests on.</summary>
static class SourceCells
{
    static readonly string[] Plain = ["common practice", "from memory"];

    public static ImmutableArray<string> Read(DialogDraft draft, Cell? cell, SourceSpot rowSpot, string what)
    {
        var found = ImmutableArray.CreateBuilder<string>();
        foreach (var (name, spot) in Names.List(cell))
        {
            if (Plain.Contains(name, StringComparer.Ordinal))
                found.Add(name);
            else if (name.StartsWith('[') && name.EndsWith(']') && draft.Sources.ContainsKey(name[1..^1]))
            {
                found.Add(name[1..^1]);
                draft.UsedSources.Add(name[1..^1]);
            }
            else
            {
                draft.Problems.Add(
                    Codes.UnknownSource,
                    spot,
                    $"There is no source \"{name}\".",
                    "Write the id of a row of the sources table in square brackets, or \"common practice\", or \"from memory\".");
            }
        }

        if (found.Count == 0 && cell is null)
            draft.Problems.Add(Codes.NoSource, rowSpot, $"{what} names no source.", "Name one in the column \"source\", or write \"common practice\" or \"from memory\".");
        return found.ToImmutable();
    }

    public static void ReportUnused(DialogDraft draft)
    {
        foreach (var source in draft.Sources.Values.Where(s => !draft.UsedSources.Contains(s.Id)))
            draft.Problems.Add(Codes.UnusedSource, source.Spot, $"No row uses the source \"{source.Id}\".", "Use it or take it out.");
    }
}
