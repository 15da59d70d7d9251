using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads the short texts of the pages.</summary>
sealed class InterfaceReader(WordPages pages, ProblemList problems)
{
    /// <param name="needed">The names of texts that the program shows.</param>
    /// <param name="folder">Where the language stands.</param>
    public FrozenDictionary<string, string> Read(ImmutableArray<string> needed, SourceSpot folder)
    {
        var keys = new WordKeys<string>("text", pages.Language, problems);
        var spots = new Dictionary<string, SourceSpot>(StringComparer.Ordinal);
        foreach (var page in pages.Of(WordPages.Interface))
        {
            var reader = new ProseReader(page.Source, BlankNames.InInterface, problems);
            foreach (var table in page.Tables)
            {
                var columns = Columns.Of(table, ["text", "words"], [], problems);
                var blanks = new HashSet<string>(StringComparer.Ordinal);
                foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
                {
                    var cell = columns.Cell(row, "words");
                    blanks.UnionWith(reader.ReadCell(cell).Blocks.OfType<Block.Paragraph>().SelectMany(p => p.Inlines).OfType<Inline.Blank>().Select(b => b.Name));
                    keys.Add(row.Cells[0].Text, row.Spot, () => cell.Text);
                    spots.TryAdd(row.Cells[0].Text, row.Spot);
                }

                TwinCheck.Report(blanks, table.Spot, problems);
            }
        }

        ReportMissing(needed, spots, folder);
        return keys.ToFrozen();
    }

    void ReportMissing(ImmutableArray<string> needed, Dictionary<string, SourceSpot> given, SourceSpot folder)
    {
        var other = given.Keys.Except(needed, StringComparer.Ordinal).ToList();
        foreach (var key in needed.Where(k => !given.ContainsKey(k)))
        {
            var near = NearestName.To(key, other);
            problems.Add(Codes.MissingInterfaceText, near is null ? pages.Of(WordPages.Interface).FirstOrDefault()?.Source.SpotAt(0) ?? folder : given[near],
                $"The program needs the short text \"{key}\".", near is null ? "Add a row to a table \"text | words\" of the interface." : $"Here stands \"{near}\": correct it if \"{key}\" is meant, else add a row.");
        }
    }
}
