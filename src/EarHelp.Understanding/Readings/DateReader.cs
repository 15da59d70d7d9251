using System.Globalization;
using EarHelp.Understanding.Lexicons;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Understanding.Readings;

/// <summary>Reads a date that is the whole of a message: <c>2026-08-12</c>, <c>12/8</c>, "12 August", "August 12", "yesterday", "3 days ago".</summary>
static class DateReader
{
    public static LocalDate? Read(Lexicon lexicon, ReadOnlySpan<string> words, LocalDate today)
    {
        foreach (var meaning in lexicon.Phrases.Whole(words))
        {
            if (meaning is Meaning.OfDay day)
                return today.PlusDays(-day.DaysAgo);
        }

        return words.Length switch
        {
            1 => ReadFigures(words[0], today),
            2 or 3 => ReadWithMonth(lexicon, words, today) ?? ReadDaysAgo(lexicon, words, today),
            _ => ReadDaysAgo(lexicon, words, today),
        };
    }

    /// <summary>The day stands before the month; without a year, the last such day that has come.</summary>
    public static LocalDate? ReadFigures(string word, LocalDate today)
    {
        var iso = LocalDatePattern.Iso.Parse(word);
        if (iso.Success)
            return iso.Value;
        var parts = word.Split('/', '.', '-');
        if (parts.Length is not (2 or 3) || ParseInt(parts[0]) is not { } day || ParseInt(parts[1]) is not { } month)
            return null;
        if (parts.Length == 2)
            return LastThatHasCome(day, month, today);
        return ParseInt(parts[2]) is { } year ? Make(year < 100 ? 2000 + year : year, month, day) : null;
    }

    static LocalDate? ReadWithMonth(Lexicon lexicon, ReadOnlySpan<string> words, LocalDate today)
    {
        var monthAt = MonthOf(lexicon, words[0]) is null ? 1 : 0;
        if (MonthOf(lexicon, words[monthAt]) is not { } month || ParseInt(words[1 - monthAt]) is not { } day)
            return null;
        if (words.Length == 2)
            return LastThatHasCome(day, month, today);
        return ParseInt(words[2]) is { } year ? Make(year, month, day) : null;
    }

    static LocalDate? ReadDaysAgo(Lexicon lexicon, ReadOnlySpan<string> words, LocalDate today)
    {
        if (ParseInt(words[0]) is not { } count || count > 100_000)
            return null;
        var key = count == 1 ? "days ago one" : "days ago many";
        if (!lexicon.Wording.Interface.TryGetValue(key, out var template))
            return null;
        var said = EarHelp.Understanding.Words.WordList.Of(
            template.Replace("{count}", count.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal));
        if (said.Length != words.Length)
            return null;
        for (var i = 0; i < words.Length; i++)
        {
            if (!string.Equals(said[i].Text, words[i], StringComparison.Ordinal))
                return null;
        }

        return today.PlusDays(-count);
    }

    static LocalDate? LastThatHasCome(int day, int month, LocalDate today)
    {
        var thisYear = Make(today.Year, month, day);
        return thisYear is { } date && date <= today ? date : Make(today.Year - 1, month, day);
    }

    static LocalDate? Make(int year, int month, int day) =>
        year is >= 1 and <= 9999 && month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month)
            ? new LocalDate(year, month, day)
            : null;

    static int? MonthOf(Lexicon lexicon, string word)
    {
        foreach (var meaning in lexicon.Phrases.Whole([word]))
        {
            if (meaning is Meaning.OfMonth month)
                return month.Number;
        }

        return null;
    }

    static int? ParseInt(string word) =>
        int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
