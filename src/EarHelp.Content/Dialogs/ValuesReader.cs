using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the values of a fact: names, or a range of numbers.</summary>
static partial class ValuesReader
{
    /// <summary>A range may have at most this many steps.</summary>
    const decimal MostSteps = 1_000_000;

    /// <summary>Null if the text is neither.</summary>
    public static FactValues? Read(string text)
    {
        if (Range().Match(text) is { Success: true } range)
            return ReadRange(range);
        ImmutableArray<string> names = [.. text.Split(',').Select(n => n.Trim())];
        return names.Length < 2 || names.Any(n => n.Length == 0) || names.Distinct(StringComparer.Ordinal).Count() < names.Length
            ? null
            : new FactValues.Named(names);
    }

    static FactValues.Numbers? ReadRange(Match range)
    {
        var from = Number(range.Groups["from"].Value);
        var to = Number(range.Groups["to"].Value);
        var step = range.Groups["step"].Success ? Number(range.Groups["step"].Value) : 1;
        var isWhole = step > 0 && to > from && (to - from) / step <= MostSteps && (to - from) % step == 0;
        return isWhole ? new FactValues.Numbers(from, to, step, range.Groups["unit"].Value.Trim()) : null;
    }

    static decimal Number(string text) => decimal.Parse(text, NumberStyles.Number, CultureInfo.InvariantCulture);

    [GeneratedRegex(
        @"^(?<from>\d{1,9}(\.\d{1,4})?) to (?<to>\d{1,9}(\.\d{1,4})?)(?<unit> [^,]+)?, (whole|steps of (?<step>\d{1,6}(\.\d{1,4})?))$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Range();
}
