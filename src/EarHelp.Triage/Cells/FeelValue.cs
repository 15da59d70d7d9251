using System.Globalization;
using System.Text.Json;

namespace EarHelp.Triage.Cells;

/// <summary>A plain value that a cell is held against: what JSON can say, and dates.</summary>
public abstract record FeelValue
{
    FeelValue()
    {
    }

    /// <summary>Nothing is known. It satisfies only <c>-</c> and <c>null</c>.</summary>
    public static FeelValue Nothing { get; } = new Null();

    public sealed record Null : FeelValue;

    public sealed record Number(decimal Value) : FeelValue;

    public sealed record Text(string Value) : FeelValue;

    public sealed record Truth(bool Value) : FeelValue;

    public sealed record Day(DateOnly Value) : FeelValue;

    /// <summary>The value of a JSON scalar; null for an object, a list, or a number too large to hold exactly.</summary>
    public static FeelValue? FromJson(JsonElement json) => json.ValueKind switch
    {
        JsonValueKind.Null or JsonValueKind.Undefined => Nothing,
        JsonValueKind.True => new Truth(true),
        JsonValueKind.False => new Truth(false),
        JsonValueKind.Number => json.TryGetDecimal(out var number) ? new Number(number) : null,
        JsonValueKind.String => new Text(json.GetString()!),
        _ => null,
    };

    /// <summary>The order of two values of one kind that has an order (numbers, texts, dates); else null.</summary>
    public int? CompareTo(FeelValue other) => (this, other) switch
    {
        (Number mine, Number theirs) => mine.Value.CompareTo(theirs.Value),
        (Text mine, Text theirs) => Math.Sign(string.CompareOrdinal(mine.Value, theirs.Value)),
        (Day mine, Day theirs) => mine.Value.CompareTo(theirs.Value),
        _ => null,
    };

    /// <summary>A text as a date if it is written as one (2026-08-31); any other value as it is.</summary>
    public FeelValue AsDate() =>
        this is Text text && DateOnly.TryParseExact(text.Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? new Day(day)
            : this;

    /// <summary>As it is written in a cell.</summary>
    public sealed override string ToString() => this switch
    {
        Null => "null",
        Number number => number.Value.ToString(CultureInfo.InvariantCulture),
        Text text => $"\"{text.Value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"",
        Truth truth => truth.Value ? "true" : "false",
        Day day => $"date(\"{day.Value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}\")",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
