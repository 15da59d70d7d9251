using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Web.Pages;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Turns;

/// <summary>Reads a number or a date that was typed into its own field.</summary>
sealed class TypedAnswer(IFormCollection fields, Words words)
{
    /// <summary>Null if the fields were left empty.</summary>
    internal TypedValue? Read(string fact, TypedInput input) =>
        input.Kind == TypedInput.Date ? ReadDate(fact) : ReadNumber(fact, input);

    TypedValue? ReadNumber(string fact, TypedInput input)
    {
        var written = Field(AnswerFields.Number, fact).Replace(',', '.');
        if (written.Length == 0)
            return null;
        if (!decimal.TryParse(written, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
            return Wrong(words["number not understood"]);
        if (number < input.From || number > input.To)
            return Wrong(words.Letter.Text("number out of range", ("from", Figure(input.From)), ("to", Figure(input.To))));
        if (input.Step is > 0 && (number - (input.From ?? 0)) % input.Step != 0)
            return Wrong(words.Letter.Text("number step", ("step", Figure(input.Step))));
        return new TypedValue(Figure(number / 1.000000000000000000m), null);
    }

    TypedValue? ReadDate(string fact)
    {
        var (day, month, year) = (Field(AnswerFields.Day, fact), Field(AnswerFields.Month, fact), Field(AnswerFields.Year, fact));
        if (day.Length + month.Length + year.Length == 0)
            return null;
        if (!int.TryParse(day, NumberStyles.None, CultureInfo.InvariantCulture, out var d)
            || !int.TryParse(month, NumberStyles.None, CultureInfo.InvariantCulture, out var m)
            || !int.TryParse(year, NumberStyles.None, CultureInfo.InvariantCulture, out var y)
            || y is < 1 or > 9999 || m is < 1 or > 12 || d < 1 || d > CalendarSystem.Iso.GetDaysInMonth(y, m))
            return Wrong(words.Letter.Text("date not understood", ("example", Example())));
        return new TypedValue(LocalDatePattern.Iso.Format(new LocalDate(y, m, d)), null);
    }

    /// <summary>Shows the form of a date; it is nobody's date.</summary>
    string Example() => string.Join(' ', "12", words["month 8"], "2026");

    string Field(string prefix, string fact) => fields[prefix + fact].ToString().Trim();

    static TypedValue Wrong(string fault) => new(null, fault);

    static string Figure(decimal? number) => number?.ToString(CultureInfo.InvariantCulture) ?? string.Empty;
}

/// <param name="Value">As in a chosen answer; null with a fault.</param>
sealed record TypedValue(string? Value, string? Fault);
