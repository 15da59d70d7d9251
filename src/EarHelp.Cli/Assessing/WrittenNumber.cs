using System.Text.Json;
using EarHelp.Triage.Facts;

namespace EarHelp.Cli.Assessing;

/// <summary>Reads numbers and ranges of numbers.</summary>
public static class WrittenNumber
{
    public static ReadValue Read(FactValues.Numbers numbers, JsonElement value)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        return value.ValueKind == JsonValueKind.Number && value.TryGetDecimal(out var number) && numbers.IndexOf(number) is { } index
            ? ReadValue.Of(ValueSet.Of(index))
            : ReadValue.Wrong($"{value.GetRawText()} is not {Described(numbers)}");
    }

    /// <summary>Both ends are in the range.</summary>
    public static ReadValue ReadRange(FactValues.Numbers numbers, JsonElement from, JsonElement to)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        var ends = Read(numbers, from).Or(Read(numbers, to));
        if (ends.Fault is not null)
            return ends;
        return from.GetDecimal() <= to.GetDecimal()
            ? ReadValue.Of(ValueSet.Between(ends.MayBe.Least, ends.MayBe.Greatest))
            : ReadValue.Wrong($"the range from {from.GetRawText()} to {to.GetRawText()} holds nothing");
    }

    static string Described(FactValues.Numbers numbers) =>
        FormattableString.Invariant($"a number from {numbers.From} to {numbers.To} {numbers.Unit}, in steps of {numbers.Step}");
}
