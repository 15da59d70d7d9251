using System.Globalization;

namespace Benchmarks.Figures;

/// <summary>What was measured, beside what it should be.</summary>
sealed class FigureTable(string title)
{
    readonly List<(string What, string Measured, string Target)> _rows = [];

    /// <summary>Takes a row, and shows at once on the error stream that it is there: the whole takes long.</summary>
    /// <param name="isMet">Null: there is no target, or it is not counted here.</param>
    public void Add(string what, string measured, string target, bool? isMet = null)
    {
        Console.Error.WriteLine($"{what}: {measured}");
        _rows.Add((what, measured, isMet switch
        {
            true => target + ": met",
            false => target + ": **missed**",
            null => target,
        }));
    }

    public void Print(TextWriter output)
    {
        output.WriteLine();
        output.WriteLine($"| {title} | measured | target |");
        output.WriteLine("|---|---|---|");
        foreach (var (what, measured, target) in _rows)
            output.WriteLine($"| {what} | {measured} | {target} |");
    }

    public static string Of(double value, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{(value >= 100 ? Math.Round(value) : Math.Round(value, 2)):#,0.##} {unit}");
}
