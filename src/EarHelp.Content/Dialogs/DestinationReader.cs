using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads where people are sent.</summary>
static class DestinationReader
{
    static readonly string[] Hours = ["always", "clinic", "unknown"];

    public static ImmutableArray<Destination> Read(ImmutableArray<PageTable> tables, ConditionReader conditions, ProblemList problems)
    {
        var names = new NameList("destination", problems);
        var destinations = ImmutableArray.CreateBuilder<Destination>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Destination, "hours"], ["reached when"], problems);
            foreach (var row in table.Rows)
            {
                if (!names.Add(row.Cells[0]))
                    continue;
                var reached = columns.Cell(row, "reached when");
                destinations.Add(new Destination(destinations.Count, row.Cells[0].Text, ReadHours(columns.Cell(row, "hours"), problems),
                    reached.IsNothing ? null : conditions.ReadOne(reached.Text, reached.Spot), row.Spot));
            }
        }

        return destinations.ToImmutable();
    }

    static DestinationHours ReadHours(PageCell cell, ProblemList problems)
    {
        var index = Array.IndexOf(Hours, cell.Text);
        if (index < 0 && !cell.IsMissing)
            problems.Add(Codes.WrongChoice, cell.Spot, $"\"{cell.Text}\" does not say when the destination is open.", $"Write one of: {string.Join(", ", Hours)}.");
        return index < 0 ? DestinationHours.Unknown : (DestinationHours)index;
    }
}
