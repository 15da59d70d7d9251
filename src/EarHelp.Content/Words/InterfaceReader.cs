using System.Collections.Frozen;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads the short texts of the pages.</summary>
sealed class InterfaceReader(WordPages pages, ProblemList problems)
{
    public FrozenDictionary<string, string> Read()
    {
        var keys = new WordKeys<string>("text", pages.Language, problems);
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
                }

                TwinCheck.Report(blanks, table.Spot, problems);
            }
        }

        return keys.ToFrozen();
    }
}
