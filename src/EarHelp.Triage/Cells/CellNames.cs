using System.Text;

namespace EarHelp.Triage.Cells;

/// <summary>Names of a fact's values inside a cell.</summary>
static class CellNames
{
    /// <summary>The name in scope that a piece is, or null.</summary>
    public static string? Find(CellSlice piece, CellScope scope)
    {
        if (scope.TakesAnyName || piece.IsEmpty)
            return null;
        var tidy = Tidy(piece.Text);
        foreach (var name in scope.Names)
        {
            if (string.Equals(name, tidy, StringComparison.Ordinal))
                return name;
        }

        return null;
    }

    /// <summary>One plain blank between words, plain hyphens, straight apostrophes.</summary>
    public static string Tidy(string written)
    {
        var tidy = new StringBuilder(written.Length);
        foreach (var c in written)
        {
            if (CellMarks.IsBlank(c))
            {
                if (tidy.Length > 0 && tidy[^1] != ' ')
                    tidy.Append(' ');
            }
            else
            {
                tidy.Append(CellMarks.IsDash(c) ? '-' : c is '\u2018' or '\u2019' ? '\'' : c);
            }
        }

        return tidy.ToString().TrimEnd();
    }

    /// <summary>True if a text may stand for itself without quotes where any name is allowed.</summary>
    public static bool IsPlain(string tidy) =>
        tidy.Length > 0 && char.IsLetter(tidy[0]) && tidy.All(c => char.IsLetterOrDigit(c) || c is ' ' or '-' or '_' or '\'' or '/' or '.' or '%' or '°' or ':');

    public static CellFault Unknown(CellSlice piece, CellScope scope)
    {
        var tidy = Tidy(piece.Text);
        if (scope.TakesAnyName)
        {
            return new CellFault(CellFaultKind.Unreadable, piece.Offset, $"\"{tidy}\" cannot be read.",
                "Write a number, a \"text\" in quotes, true or false, date(\"2026-08-31\"), < 3, [4..90], not(…) or -.");
        }

        if (scope.Names.IsEmpty)
        {
            return new CellFault(CellFaultKind.UnknownValue, piece.Offset, $"\"{tidy}\" is not a number, and the values are numbers.",
                "Write a number, < 3, a range such as [4..90], or -.");
        }

        var near = NearestName.To(tidy, scope.Names);
        var known = $"The values are: {string.Join(", ", scope.Names)}.";
        return new CellFault(CellFaultKind.UnknownValue, piece.Offset, $"\"{tidy}\" is not one of the values.",
            near is null ? known : $"Did you mean \"{near}\"? {known}");
    }
}
