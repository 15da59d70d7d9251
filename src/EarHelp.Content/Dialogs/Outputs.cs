using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the conclusion columns of a table over plain values: <c>**level** (high, low)</c> gives the order of the values.</summary>
static class Outputs
{
    /// <summary>The heading without its bold marks and without the order behind it.</summary>
    public static string NameOf(Cell heading)
    {
        var end = heading.Text.IndexOf("**", 2, StringComparison.Ordinal);
        return heading.Text.StartsWith("**", StringComparison.Ordinal) && end > 2 ? heading.Text[2..end].Trim() : heading.Text;
    }

    public static OutputColumn ColumnOf(Cell heading, ImmutableArray<string> levels, ProblemList problems)
    {
        var name = NameOf(heading);
        var open = heading.Text.IndexOf('(', StringComparison.Ordinal);
        var close = heading.Text.LastIndexOf(')');
        IEnumerable<string> order = open > 0 && close > open
            ? heading.Text[(open + 1)..close].Split(',').Select(o => o.Trim())
            : name == Conclusions.Level ? levels : [];
        return new OutputColumn(name, [.. order.Select(o => ValueOf(o, heading, problems))]);
    }

    /// <summary>A FEEL literal, or a bare name that means its text; <c>-</c> is nothing.</summary>
    public static FeelValue ValueOf(string text, Cell cell, ProblemList problems)
    {
        if (text.Length == 0)
            problems.Add(Codes.EmptyCell, cell.Spot, "The cell is empty.", "Write the conclusion, or - for none.");
        if (text is "" or "-" or "null")
            return FeelValue.Nothing;
        var reading = CellParser.Parse(text, CellScope.AnyName);
        return reading.Test is UnaryTest.AnyOf { Parts: [TestPart.Comparison { How: Comparing.Equal } one] } ? one.With.Value : new FeelValue.Text(text);
    }
}
