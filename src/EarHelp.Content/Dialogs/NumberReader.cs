using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Dialogs;

/// <summary>A number counted from a date.</summary>
sealed record CountedNumber(PageCell Id, CountUnit Unit, PageCell Since, FactValues Values);

static class NumberReader
{
    public static ImmutableArray<CountedNumber> Read(ImmutableArray<PageTable> tables, NameList names, ProblemList problems)
    {
        var numbers = ImmutableArray.CreateBuilder<CountedNumber>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Number, "counts", "since", "values"], [], problems);
            foreach (var row in table.Rows)
            {
                var since = columns.Cell(row, "since");
                if (numbers.Any(n => n.Since.Text == since.Text))
                    problems.Add(Codes.WrongNumber, since.Spot, $"From \"{since.Text}\" a number is counted already.", "A date has at most one number; use that one.");
                else if (names.Add(row.Cells[0]) && ReadValues(columns.Cell(row, "values"), problems) is { } values)
                    numbers.Add(new CountedNumber(row.Cells[0], ReadUnit(columns.Cell(row, "counts"), problems), since, values));
            }
        }

        return numbers.ToImmutable();
    }

    static FactValues.Numbers? ReadValues(PageCell cell, ProblemList problems)
    {
        var values = ValuesReader.Read(cell, problems);
        if (values is FactValues.Numbers { From: 0, Step: 1 } numbers)
            return numbers;
        if (values is not null)
            problems.Add(Codes.WrongValues, cell.Spot, $"\"{cell.Text}\" cannot be counted from a date.", "Write a range of whole numbers from 0, for example \"0 to 36500 days, whole\".");
        return null;
    }

    static CountUnit ReadUnit(PageCell cell, ProblemList problems)
    {
        if (!cell.IsMissing && cell.Text is not ("days" or "hours"))
            problems.Add(Codes.WrongNumber, cell.Spot, $"\"{cell.Text}\" cannot be counted.", "Write days (of the calendar) or hours (elapsed).");
        return cell.Text == "hours" ? CountUnit.Hours : CountUnit.Days;
    }
}
