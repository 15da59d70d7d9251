using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Words;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Answers;

/// <summary>Reads the plain words for what clinicians call otherwise.</summary>
static class GlossaryReader
{
    public static ImmutableArray<GlossaryEntry> Read(IEnumerable<Page> pages, ProblemList problems)
    {
        var entries = ImmutableArray.CreateBuilder<GlossaryEntry>();
        var given = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var page in pages)
        {
            var reader = new ProseReader(page.Source, BlankNames.InAnyText, problems);
            foreach (var table in page.Tables)
            {
                var columns = Columns.Of(table, ["plain words", "medical words", "what it is"], [], problems);
                foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
                {
                    var (plain, medical) = (SaidAs.Read(row.Cells[0]), SaidAs.Read(columns.Cell(row, "medical words")));
                    foreach (var word in plain.Concat(medical).Where(w => !given.TryAdd(w, row.Spot.ToString())))
                        problems.Add(Codes.DoubledName, row.Spot, $"\"{word}\" stands twice in the glossary; first at {given[word]}.", "Keep one of them.");
                    entries.Add(new GlossaryEntry(plain, medical, reader.ReadCell(columns.Cell(row, "what it is")), row.Spot));
                }
            }
        }

        return entries.ToImmutable();
    }
}
