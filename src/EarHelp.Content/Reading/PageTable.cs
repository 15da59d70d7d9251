using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>A pipe table as it stands in a file.</summary>
/// <param name="Above">The heading above it, or empty.</param>
sealed record PageTable(string Above, SourceSpot AboveSpot, ImmutableArray<PageCell> Headings, ImmutableArray<PageRow> Rows, SourceSpot Spot)
{
    /// <summary>The first heading, which says what the table is.</summary>
    public string Kind => Headings.IsEmpty ? "" : Headings[0].Text;
}

sealed record PageRow(ImmutableArray<PageCell> Cells, SourceSpot Spot);

/// <summary>One cell.</summary>
/// <param name="Raw">As it stands in the file, without the blanks around it.</param>
/// <param name="Offset">Where it starts in the file's text.</param>
/// <param name="IsMissing">The row is too short; that was reported.</param>
sealed record PageCell(string Raw, int Offset, SourceSpot Spot, bool IsMissing = false)
{
    /// <summary>Without the backslash before a bar.</summary>
    public string Text { get; } = Raw.Replace("\\|", "|", StringComparison.Ordinal);

    public bool IsNothing => IsMissing || Text.Length == 0 || (Text.Length == 1 && Text[0] is '-' or '\u2013' or '\u2014' or '\u2212');

    /// <summary>True if the whole cell, apart from a bracket after it, is bold.</summary>
    public bool IsBold => Text.StartsWith("**", StringComparison.Ordinal) && Text.IndexOf("**", 2, StringComparison.Ordinal) > 2;

    /// <summary>The words between the stars of a bold cell, else all of it.</summary>
    public string Name => IsBold ? Text[2..Text.IndexOf("**", 2, StringComparison.Ordinal)].Trim() : Text;

    /// <summary>The entries of a list in round brackets after a bold heading; empty if there is none.</summary>
    public ImmutableArray<string> Order
    {
        get
        {
            var after = IsBold ? Text[(Text.IndexOf("**", 2, StringComparison.Ordinal) + 2)..].Trim() : "";
            return after.Length > 2 && after[0] == '(' && after[^1] == ')'
                ? [.. after[1..^1].Split(',').Select(e => e.Trim())]
                : [];
        }
    }

    /// <summary>Entries between commas, each with its own spot.</summary>
    public ImmutableArray<(string Text, SourceSpot Spot)> SplitAt(char mark)
    {
        var entries = ImmutableArray.CreateBuilder<(string, SourceSpot)>();
        var start = 0;
        for (var i = 0; i <= Text.Length; i++)
        {
            if (i < Text.Length && Text[i] != mark)
                continue;
            var entry = Text[start..i];
            var blanks = entry.Length - entry.TrimStart().Length;
            entries.Add((entry.Trim(), At(start + blanks)));
            start = i + 1;
        }

        return entries.ToImmutable();
    }

    /// <summary>The spot of a place inside the cell.</summary>
    public SourceSpot At(int offset) => Spot with { Column = Spot.Column + offset };
}
