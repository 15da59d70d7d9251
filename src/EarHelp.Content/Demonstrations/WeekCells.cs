using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Demonstrations;

/// <summary>A row of a table of the week, its cells by the names of their columns.</summary>
readonly record struct WeekRow(PageRow Row, Columns Columns)
{
    public PageCell this[string column] => Columns.Cell(Row, column);

    public SourceSpot Spot => Row.Spot;
}

/// <summary>Reads the cells of an invented week, and reports those that cannot be read.</summary>
sealed class WeekCells(Dialog dialog, ProblemList problems)
{
    public static string TextOf(PageCell cell) => cell.IsNothing ? "" : cell.Text;

    public static ImmutableArray<string> ListOf(PageCell cell) => cell.IsNothing ? [] : [.. cell.SplitAt(',').Select(e => e.Text)];

    public string OneOf(PageCell cell, string what, ImmutableArray<string> known)
    {
        if (!cell.IsMissing && !known.Contains(cell.Text))
            problems.AddUnknown(Codes.UnknownName, cell.Spot, what, cell.Text, known);
        return cell.Text;
    }

    public ImmutableArray<string> Names(PageCell cell, string what, ImmutableArray<string> known)
    {
        if (cell.IsMissing)
            return [];
        foreach (var (name, spot) in cell.SplitAt(',').Where(e => !known.Contains(e.Text)))
            problems.AddUnknown(Codes.UnknownName, spot, what, name, known);
        return ListOf(cell);
    }

    public bool YesNo(PageCell cell) => OneOf(cell, "answer", ["yes", "no"]) == "yes";

    /// <summary>The rank of a level; null for none.</summary>
    public int? Level(PageCell cell)
    {
        if (cell.IsNothing)
            return null;
        if (dialog.Levels.FirstOrDefault(l => l.Id == cell.Text) is { } level)
            return level.Rank;
        problems.AddUnknown(Codes.UnknownName, cell.Spot, "level", cell.Text, dialog.Levels.Select(l => l.Id));
        return null;
    }

    public ImmutableArray<string> Findings(PageCell cell) => cell.IsNothing ? [] : Names(cell, "finding", [.. dialog.Findings.Select(f => f.Id)]);

    public TimeSpan Hours(PageCell cell)
    {
        if (decimal.TryParse(cell.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var hours) && hours > 0 && hours <= decimal.One * MostHours)
            return TimeSpan.FromHours((double)hours);
        Wrong(cell, $"Write hours above 0 and up to {MostHours}, such as 2.5.");
        return TimeSpan.Zero;
    }

    public int Whole(PageCell cell)
    {
        if (int.TryParse(cell.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= MostOfAKind)
            return number;
        Wrong(cell, $"Write a whole number from 0 to {MostOfAKind}.");
        return 0;
    }

    /// <summary>A week.</summary>
    const int MostHours = 168;

    const int MostOfAKind = 100;

    void Wrong(PageCell cell, string mend)
    {
        if (!cell.IsMissing)
            problems.Add(Codes.WrongFigures, cell.Spot, $"\"{cell.Text}\" is no number that can stand here.", mend);
    }
}
