using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>One page as its author sees it: settings, headings, tables and the text between.</summary>
sealed record Page(string Path, ImmutableArray<Setting> Settings, ImmutableArray<PagePart> Parts)
{
    public Setting? Find(string name) => Settings.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.Ordinal));

    public string? this[string name] => Find(name)?.Value;

    public SourceSpot Top => new(Path, 1, 1);

    public bool IsDialogs => Path.StartsWith("dialogs/", StringComparison.Ordinal);
}

sealed record Setting(string Name, string Value, SourceSpot Spot);

/// <summary>A piece of a page.</summary>
abstract record PagePart(SourceSpot Spot)
{
    public sealed record Heading(int Level, string Text, SourceSpot Spot) : PagePart(Spot);

    /// <summary>A paragraph or a list.</summary>
    /// <param name="Source">As written.</param>
    public sealed record Passage(string Source, SourceSpot Spot) : PagePart(Spot);

    /// <param name="Title">The text of the heading above it, or empty.</param>
    public sealed record Table(string Title, SourceSpot TitleSpot, ImmutableArray<Cell> Headings, ImmutableArray<Row> Rows, SourceSpot Spot) : PagePart(Spot);
}

/// <param name="Cells">As many as the table has headings; the compiler reports rows that have more or fewer and leaves them out.</param>
sealed record Row(ImmutableArray<Cell> Cells, SourceSpot Spot);

/// <param name="Text">Trimmed, with <c>\|</c> read as a bar.</param>
sealed record Cell(string Text, SourceSpot Spot)
{
    public bool IsAnything => Text is "-" or "–" or "—";

    /// <summary>A heading without its bold marks.</summary>
    public string Plain => IsBold ? Text[2..Text.IndexOf("**", 2, StringComparison.Ordinal)].Trim() : Text;

    public bool IsBold => Text.StartsWith("**", StringComparison.Ordinal) && Text.IndexOf("**", 2, StringComparison.Ordinal) > 2;

    public SourceSpot At(int offset) => Spot with { Column = Spot.Column + offset };
}
