using System.Text.Json;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>Reads one JSON value as the set of a fact's values that may be true.</summary>
/// <param name="at">The moment the line speaks of.</param>
/// <param name="zone">The clinic's.</param>
public sealed class WrittenValue(Instant at, DateTimeZone zone)
{
    readonly WrittenDate _dates = new(at, zone);

    /// <param name="byNumber">True if a date's own counted number is given in place of the date.</param>
    public ReadValue Read(Fact fact, bool byNumber, JsonElement value)
    {
        ArgumentNullException.ThrowIfNull(fact);
        switch (value.ValueKind)
        {
            case JsonValueKind.String when value.ValueEquals("unsure"):
                return ReadValue.Of(fact.Values.All);
            case JsonValueKind.Array when value.GetArrayLength() == 0:
                return ReadValue.Wrong("an empty list says that nothing can be true");
            case JsonValueKind.Array:
                return value.EnumerateArray().Select(v => One(fact, byNumber, v)).Aggregate((a, b) => a.Or(b));
            case JsonValueKind.Object:
                return Range(fact, byNumber, value);
            default:
                return One(fact, byNumber, value);
        }
    }

    ReadValue One(Fact fact, bool byNumber, JsonElement value) => fact switch
    {
        { Counted: { } counted } when !byNumber => _dates.Read(fact, counted, value),
        { Values: FactValues.Numbers numbers } => WrittenNumber.Read(numbers, value),
        { Values: FactValues.Named named } => Named(fact, named, value),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    ReadValue Range(Fact fact, bool byNumber, JsonElement value)
    {
        if (fact.Values is not FactValues.Numbers numbers)
            return ReadValue.Wrong("a range is for numbers and dates; list the values that may be true");
        var names = value.EnumerateObject().Select(p => p.Name).Order(StringComparer.Ordinal);
        if (!names.SequenceEqual(["from", "to"]))
            return ReadValue.Wrong("a range has \"from\" and \"to\" and nothing else");
        var (from, to) = (value.GetProperty("from"), value.GetProperty("to"));
        return fact.Counted is { } counted && !byNumber
            ? _dates.ReadRange(fact, counted, from, to)
            : WrittenNumber.ReadRange(numbers, from, to);
    }

    static ReadValue Named(Fact fact, FactValues.Named named, JsonElement value)
    {
        var written = value.ValueKind switch
        {
            JsonValueKind.String => value.GetString()!,
            JsonValueKind.True when fact.IsYesNo => "yes",
            JsonValueKind.False when fact.IsYesNo => "no",
            _ => value.GetRawText(),
        };
        return named.IndexOf(written) is { } index
            ? ReadValue.Of(ValueSet.Of(index))
            : ReadValue.Wrong($"\"{written}\" is not one of its values: {string.Join(", ", named.Names)}");
    }
}
