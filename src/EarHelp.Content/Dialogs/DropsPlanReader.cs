using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads how the drops of an advice item are used.</summary>
sealed class DropsPlanReader(NameIndex advice, SourceReader sources, ProblemList problems)
{
    const string EachTime = "each time", TimesADay = "times a day", Days = "days", InMillilitre = "drops in a millilitre", Bottle = "bottle";

    const string To = " to ", Unit = " mL";

    public ImmutableArray<DropsPlan> Read(ImmutableArray<PageTable> tables)
    {
        var plans = ImmutableArray.CreateBuilder<DropsPlan>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.DropsPlan, EachTime, TimesADay, Days, InMillilitre, Bottle, "source"], [], problems);
            foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
            {
                var referred = sources.Refer(columns.Cell(row, "source"), $"The drops plan of \"{row.Cells[0].Text}\"");
                if (advice.Find(row.Cells[0]) is { } item
                    && ReadFigures(columns.Cell(row, EachTime)) is { } each && ReadFigures(columns.Cell(row, TimesADay)) is { } times
                    && ReadFigures(columns.Cell(row, Days)) is { } days && ReadFigures(columns.Cell(row, InMillilitre)) is { } size
                    && ReadFigures(columns.Cell(row, Bottle)) is { } bottle)
                    plans.Add(new DropsPlan(item, each, times, days, size, bottle.From, referred, row.Spot));
            }
        }

        return plans.ToImmutable();
    }

    Figures? ReadFigures(PageCell cell)
    {
        if (cell.IsMissing)
            return null;
        var text = cell.Text.EndsWith(Unit, StringComparison.Ordinal) ? cell.Text[..^Unit.Length] : cell.Text;
        var at = text.IndexOf(To, StringComparison.Ordinal);
        var (first, last) = at < 0 ? (text, text) : (text[..at], text[(at + To.Length)..]);
        if (Whole(first) is { } from && Whole(last) is { } to && from <= to)
            return new Figures(from, to);
        problems.Add(Codes.WrongFigures, cell.Spot, $"\"{cell.Text}\" is no figure of a drops plan.", "Write a whole number from 1, or a range such as \"2 to 3\"; a bottle is \"10 mL\".");
        return null;
    }

    static int? Whole(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0 ? number : null;
}
