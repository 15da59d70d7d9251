using System.Collections.Immutable;
using System.Text;
using EarHelp.Clinic.Figures;

namespace EarHelp.Web.Figures;

/// <summary>Figures as comma-separated values (RFC 4180): one count a line, with the names of the edition.</summary>
static class FigureCsv
{
    internal static string Write(string month, ImmutableArray<FigureTable> tables)
    {
        var csv = new StringBuilder("month,kind,of,name,column,count\r\n");
        foreach (var table in tables)
        {
            foreach (var row in table.Rows)
            {
                foreach (var (column, count) in table.Columns.Zip(row.Counts))
                    csv.AppendJoin(',', ((string[])[month, table.Kind.ToString(), row.Of ?? "", row.Name, column, count.ToString()]).Select(Field)).Append("\r\n");
            }
        }

        return csv.ToString();
    }

    /// <summary>A field that a spreadsheet would read as a formula gets a quote in front.</summary>
    static string Field(string value)
    {
        var safe = value.Length > 0 && "=+-@\t".Contains(value[0], StringComparison.Ordinal) ? "'" + value : value;
        return safe.AsSpan().IndexOfAny("\",\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
