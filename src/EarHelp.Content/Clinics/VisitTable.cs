using System.Globalization;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Clinics;

/// <summary>Reads the table "visit" of <c>content/clinic.md</c>: how long visits take, and how they are planned.</summary>
static class VisitTable
{
    public const string Kind = "visit";

    /// <summary>The rows, each with the least and the most that makes sense.</summary>
    static readonly (string Name, int Least, int Most)[] Rows =
    [
        ("one ear", 5, 480),
        ("both ears", 5, 480),
        ("first visit, more", 0, 480),
        ("starts every", 5, 240),
        ("notice", 0, 10080),
        ("days ahead", 1, 366),
        ("hold", 5, 120),
    ];

    /// <summary>Null if there is no such table, or it has a fault.</summary>
    public static VisitLengths? Read(Page page, ProblemList problems)
    {
        var tables = page.Tables.Where(t => t.Kind == Kind).ToList();
        if (tables.Count == 0)
            return null;
        var read = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [Kind, "number"], [], problems);
            foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
                ReadRow(row.Cells[0], columns.Cell(row, "number"), read, problems);
        }

        foreach (var missing in Rows.Where(r => !read.ContainsKey(r.Name)))
            problems.Add(Codes.WrongVisitRow, tables[0].Spot, $"The row \"{missing.Name}\" is missing or has a fault.", $"Write \"{missing.Name}\" and a whole number from {missing.Least} to {missing.Most}.");
        return Rows.All(r => read.ContainsKey(r.Name))
            ? new VisitLengths(read["one ear"], read["both ears"], read["first visit, more"], read["starts every"], read["notice"], read["days ahead"], read["hold"])
            : null;
    }

    static void ReadRow(PageCell name, PageCell number, Dictionary<string, int> read, ProblemList problems)
    {
        var known = Array.Find(Rows, r => r.Name == name.Text);
        if (known.Name is null)
            problems.AddUnknown(Codes.WrongVisitRow, name.Spot, "row of the table of visits", name.Text, Rows.Select(r => r.Name));
        else if (!int.TryParse(number.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var value) || value < known.Least || value > known.Most)
            problems.Add(Codes.WrongVisitRow, number.Spot, $"\"{number.Text}\" cannot be the number of \"{name.Text}\".", $"Write a whole number from {known.Least} to {known.Most}.");
        else if (!read.TryAdd(name.Text, value))
            problems.Add(Codes.DoubledName, name.Spot, $"\"{name.Text}\" is listed twice.", "Keep one of them.");
    }
}
