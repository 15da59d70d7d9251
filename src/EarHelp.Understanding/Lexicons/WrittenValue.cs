using System.Globalization;
using System.Text;
using EarHelp.Triage.Facts;

namespace EarHelp.Understanding.Lexicons;

/// <summary>Writes a set of a fact's values as a chosen answer does: a name, <c>4</c>, <c>3..5</c>, several with commas between.</summary>
public static class WrittenValue
{
    public static string Of(Fact fact, ValueSet values)
    {
        ArgumentNullException.ThrowIfNull(fact);
        ArgumentNullException.ThrowIfNull(values);
        if (values.Only is { } only)
            return fact.Values.NameOf(only);
        var text = new StringBuilder();
        foreach (var range in values.Ranges)
            Append(text, fact, range);
        return text.ToString();
    }

    static void Append(StringBuilder text, Fact fact, IndexRange range)
    {
        if (fact.Values is FactValues.Named)
        {
            for (var i = range.First; i <= range.Last; i++)
                Separated(text).Append(fact.Values.NameOf(i));
            return;
        }

        Separated(text).Append(fact.Values.NameOf(range.First));
        if (range.Last != range.First)
            text.Append(CultureInfo.InvariantCulture, $"..{fact.Values.NameOf(range.Last)}");
    }

    static StringBuilder Separated(StringBuilder text) => text.Length > 0 ? text.Append(", ") : text;
}
