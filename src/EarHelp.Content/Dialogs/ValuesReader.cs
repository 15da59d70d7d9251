using System.Globalization;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the column <c>values</c> of a fact.</summary>
static partial class ValuesReader
{
    const int MostNumbers = 1_000_000;

    /// <summary>Null after a fault. A date is read before.</summary>
    public static FactValues? Read(PageCell cell, ProblemList problems)
    {
        if (cell.IsMissing || cell.Text.Length == 0)
            return null;
        return Numbers().Match(cell.Text) is { Success: true } match ? ReadNumbers(match, cell, problems) : ReadNames(cell, problems);
    }

    static FactValues.Numbers? ReadNumbers(Match match, PageCell cell, ProblemList problems)
    {
        decimal Number(string group) => decimal.TryParse(match.Groups[group].Value, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : 0;
        var (from, to) = (Number("from"), Number("to"));
        var step = match.Groups["step"].Success ? Number("step") : match.Groups["whole"].Success ? 1 : 0;
        if (step > 0 && from < to && (to - from) / step < MostNumbers && (to - from) % step == 0 && (!match.Groups["whole"].Success || from == decimal.Truncate(from)))
            return new FactValues.Numbers(from, to, step, match.Groups["unit"].Value.Trim());
        problems.Add(Codes.WrongValues, cell.Spot, $"\"{cell.Text}\" is not a range of numbers with a step.",
            "Write \"0 to 120 years, whole\" or \"34.0 to 43.0 °C, steps of 0.1\": the smaller number first, and a step that reaches the larger.");
        return null;
    }

    static FactValues.Named? ReadNames(PageCell cell, ProblemList problems)
    {
        var names = new NameList("value", problems);
        var entries = cell.SplitAt(',');
        var isWhole = true;
        foreach (var (text, spot) in entries)
        {
            if (text.Length == 0)
                problems.Add(Codes.WrongValues, spot, "A value is missing between two commas.", "Write names with commas between, \"yes, no\", a range of numbers, or date.");
            isWhole &= names.Add(text, spot);
        }

        if (entries.Length < 2)
            problems.Add(Codes.WrongValues, cell.Spot, $"\"{cell.Text}\" is only one value.", "Write at least two names with a comma between, \"0 to 120 years, whole\", or date.");
        return isWhole && entries.Length >= 2 ? new FactValues.Named([.. entries.Select(e => e.Text)]) : null;
    }

    [GeneratedRegex(@"^(?<from>-?\d+(?:\.\d+)?)\s+to\s+(?<to>-?\d+(?:\.\d+)?)(?<unit>[^,]*)(?:,\s*(?:(?<whole>whole)|steps? of (?<step>\d+(?:\.\d+)?)))?$", RegexOptions.CultureInvariant)]
    private static partial Regex Numbers();
}
