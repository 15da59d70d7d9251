using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;
using NodaTime.Text;

namespace EarHelp.Content.ReadingLevels;

/// <summary>A text that somebody lets be harder to read, up to the hard limits.</summary>
sealed record ReadingWaiver(string Text, SourceSpot Spot)
{
    const string By = "waived by", Because = "because", On = "on";

    /// <summary>A waiver without a name, a reason or a date is a fault, and does not count.</summary>
    public static ImmutableArray<ReadingWaiver> Read(IEnumerable<PageTable> tables, ProblemList problems)
    {
        var waivers = ImmutableArray.CreateBuilder<ReadingWaiver>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, ["text", By, Because, On], [], problems);
            foreach (var row in table.Rows)
            {
                var (by, because, on) = (columns.Cell(row, By), columns.Cell(row, Because), columns.Cell(row, On));
                if (by.IsMissing || because.IsMissing || on.IsMissing)
                    continue;
                if (by.IsNothing || because.IsNothing || !LocalDatePattern.Iso.Parse(on.Text).Success)
                    problems.Add(Codes.WrongWaiver, row.Spot, $"The waiver of \"{row.Cells[0].Text}\" is not whole.", "Write who waives, why, and the day as 2026-11-25.");
                else
                    waivers.Add(new ReadingWaiver(row.Cells[0].Text, row.Spot));
            }
        }

        return waivers.ToImmutable();
    }
}
