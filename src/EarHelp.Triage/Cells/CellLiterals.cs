using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace EarHelp.Triage.Cells;

/// <summary>Reads one value: a number, a "text", true, false, null, a date, a name.</summary>
static partial class CellLiterals
{
    public static (CellLiteral? Literal, CellFault? Fault) Parse(CellSlice piece, CellScope scope)
    {
        if (CellNames.Find(piece, scope) is { } name)
            return Of(piece, new FeelValue.Text(name), true);
        var text = piece.Text;
        if (CellMarks.IsQuote(text[0]))
            return ParseText(piece);
        if (text is "true" or "false")
            return Of(piece, new FeelValue.Truth(text == "true"));
        if (text == "null")
            return Of(piece, FeelValue.Nothing);
        if (DateCall().IsMatch(text))
            return ParseDate(piece);
        if (CellMarks.IsDigit(text[0]) || text[0] == '.' || (CellMarks.IsDash(text[0]) && text.Length > 1))
            return ParseNumber(piece, scope);
        var tidy = CellNames.Tidy(text);
        return scope.TakesAnyName && CellNames.IsPlain(tidy)
            ? Of(piece, new FeelValue.Text(tidy), true)
            : (null, CellNames.Unknown(piece, scope));
    }

    static (CellLiteral?, CellFault?) ParseNumber(CellSlice piece, CellScope scope)
    {
        var tidy = CellNames.Tidy(piece.Text);
        if (PlainNumber().IsMatch(tidy) && decimal.TryParse(tidy, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
            return Of(piece, new FeelValue.Number(number));
        if (IsoDate().IsMatch(tidy))
            return (null, Fault(piece.Offset, $"\"{tidy}\" is a date without its mark.", $"Write date(\"{tidy}\")."));
        var unit = NumberWithUnit().Match(tidy);
        if (unit.Success && scope.Names.IsEmpty)
            return (null, Fault(piece.Offset, $"\"{tidy}\" is not a plain number.", $"Write {unit.Groups[1].Value} alone; the unit stands with the fact."));
        return (null, scope.Names.IsEmpty ? Fault(piece.Offset, $"\"{tidy}\" is not a number.", "Write it with digits and at most one point, for example 37.5.") : CellNames.Unknown(piece, scope));
    }

    static (CellLiteral?, CellFault?) ParseText(CellSlice piece)
    {
        var text = piece.Text;
        var content = new StringBuilder();
        for (var i = 1; i < text.Length; i++)
        {
            if (CellMarks.IsQuote(text[i]))
            {
                return i == text.Length - 1
                    ? Of(piece, new FeelValue.Text(content.ToString()))
                    : (null, Fault(piece.Offset + i, "Something stands after the closing quote.", "Put a comma between two texts; inside a text write \\\" for a quote."));
            }

            if (text[i] == '\\' && i + 1 < text.Length)
            {
                if (!TakeEscape(text, ref i, content))
                    return (null, Fault(piece.Offset + i, $"\"\\{text[i]}\" is not known inside a text.", "Known are \\\" \\\\ \\n \\r \\t and \\u with four hexadecimal digits."));
            }
            else
            {
                content.Append(text[i]);
            }
        }

        return (null, Fault(piece.Offset, "The text is not closed.", "Put a quote at its end: \"text\"."));
    }

    static bool TakeEscape(string text, ref int i, StringBuilder content)
    {
        i++;
        switch (text[i])
        {
            case 'n': content.Append('\n'); return true;
            case 'r': content.Append('\r'); return true;
            case 't': content.Append('\t'); return true;
            case '\\' or '"' or '\'': content.Append(text[i]); return true;
            case 'u' when i + 4 < text.Length
                && ushort.TryParse(text.AsSpan(i + 1, 4), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var code):
                content.Append((char)code);
                i += 4;
                return true;
            default: return false;
        }
    }

    static (CellLiteral?, CellFault?) ParseDate(CellSlice piece)
    {
        var written = DateCall().Match(piece.Text).Groups[1].Value;
        return DateOnly.TryParseExact(written, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? Of(piece, new FeelValue.Day(day))
            : (null, Fault(piece.Offset, $"\"{written}\" is not a day of the calendar.", "Write year, month and day: date(\"2026-08-31\")."));
    }

    static (CellLiteral?, CellFault?) Of(CellSlice piece, FeelValue value, bool isName = false) => (new CellLiteral(value, isName, piece.Offset), null);

    static CellFault Fault(int offset, string fault, string mend) => new(CellFaultKind.Unreadable, offset, fault, mend);

    [GeneratedRegex(@"^-?(\d+(\.\d+)?|\.\d+)$", RegexOptions.CultureInvariant)]
    private static partial Regex PlainNumber();

    [GeneratedRegex(@"^\d{4}-\d{2}-\d{2}$", RegexOptions.CultureInvariant)]
    private static partial Regex IsoDate();

    [GeneratedRegex(@"^(-?\d+(?:\.\d+)?)\s*[\p{L}%°].*$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberWithUnit();

    [GeneratedRegex("^date\\s*\\(\\s*[\"\u201C\u201D\u201E\u00AB\u00BB]([^\"\u201C\u201D\u00AB\u00BB]*)[\"\u201C\u201D\u201E\u00AB\u00BB]\\s*\\)$", RegexOptions.CultureInvariant)]
    private static partial Regex DateCall();
}
