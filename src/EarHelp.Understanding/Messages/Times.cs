using EarHelp.Understanding.Readings;
using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <summary>A day, or a length of time, that a message names.</summary>
/// <param name="Day">The day it points at; null: it is a length only.</param>
/// <param name="Days">How many days it is long, or ago.</param>
/// <param name="IsSpan">Something went on over this time.</param>
/// <param name="Today">The day on which it was written.</param>
sealed record SaidTime(int First, int Last, LocalDate? Day, int? Days, bool IsSpan, LocalDate Today);

/// <summary>Reads days and lengths of time in a message. The names of days, months and units are content.</summary>
static class Times
{
    const int DaysInWeek = 7, DaysInFortnight = 14, DaysInMonth = 30, DaysInYear = 365;

    /// <summary>Written like a day and a month.</summary>
    static readonly string[] Fractions = ["1/2", "1/3", "2/3", "1/4", "3/4"];

    static readonly string[] Weekdays = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

    static readonly string[] Months = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

    static readonly (string Kind, int Days)[] Units = [("days", 1), ("weeks", DaysInWeek), ("fortnights", DaysInFortnight), ("months", DaysInMonth), ("years", DaysInYear)];

    public static List<SaidTime> Read(PhraseBook book, MessageWords words, Scopes scopes, LocalDate today)
    {
        var times = new List<SaidTime>();
        var lengths = new List<SaidTime>();
        var weeksBefore = new List<Finding<Trigger>>();
        AddDay("today", 0);
        AddDay("yesterday", 1);
        AddDay("day before", 2);
        foreach (var trigger in scopes.Of("last weekend"))
            times.Add(new SaidTime(trigger.First, trigger.Last, LastWeekday(6), null, false, today));
        foreach (var trigger in scopes.Of("named days"))
        {
            var inYear = trigger.Meaning.Day!.Value.InYear(today.Year);
            times.Add(new SaidTime(trigger.First, trigger.Last, inYear > today ? inYear.PlusYears(-1) : inYear, null, false, today));
        }

        for (var i = 0; i < Weekdays.Length; i++)
        {
            foreach (var trigger in scopes.Of(Weekdays[i]))
                AddWeekday(trigger, LastWeekday(i + 1));
        }

        foreach (var (kind, days) in Units)
        {
            foreach (var trigger in scopes.Of(kind))
            {
                if (Count(trigger) is { } count && count < 1000)
                    AddLength(trigger, count * days, days);
            }
        }

        CountBack();
        times.AddRange(lengths);
        AddMonths();
        AddFigures();
        times.Sort((one, other) => one.First.CompareTo(other.First));
        return times;

        void AddDay(string kind, int ago)
        {
            foreach (var trigger in scopes.Of(kind))
                times.Add(new SaidTime(trigger.First, trigger.Last, today.PlusDays(-ago), ago, false, today));
        }

        void AddLength(Finding<Trigger> unit, int days, int unitDays)
        {
            var isOver = scopes.Of("over a time").Any(o => o.Last < unit.First && o.Last >= unit.First - 4);
            var day = unitDays == DaysInMonth ? today.PlusMonths(-(days / DaysInMonth)) : unitDays == DaysInYear ? today.PlusYears(-(days / DaysInYear)) : today.PlusDays(-days);
            lengths.Add(new SaidTime(unit.First - 1, unit.Last, day, days, isOver, today));
        }

        // "A week last Friday", "Friday before last"; "Sunday week" is still to come.
        void AddWeekday(Finding<Trigger> named, LocalDate day)
        {
            var before = scopes.Of("a week before").FirstOrDefault(w => w.Last == named.First - 1 || w.First == named.Last + 1);
            if (before is not null)
                weeksBefore.Add(before);
            if (before is not null || !scopes.Of("a week after").Any(w => w.First == named.Last + 1))
                times.Add(new SaidTime(named.First, named.Last, before is null ? day : day.PlusDays(-DaysInWeek), null, false, today));
        }

        // "A fortnight ago today", "2 weeks ago last Friday": counted from the day behind it; and the week in "a week last Friday" is no length.
        void CountBack()
        {
            lengths.RemoveAll(l => weeksBefore.Exists(w => w.Holds(l.Last)));
            foreach (var length in lengths.ToList())
            {
                var last = scopes.Of("ago").FirstOrDefault(a => a.First == length.Last + 1)?.Last;
                if (last is null || times.Find(t => t.First == last + 1 || (t.First == last + 2 && scopes.Of("since").Any(s => s.First == last + 1))) is not { Day: { } day } from)
                    continue;
                lengths.Remove(length);
                times.Remove(from);
                times.Add(new SaidTime(length.First, from.Last, day.PlusDays(-length.Days!.Value), length.Days + from.Days, false, today));
            }
        }

        // "Since 12/8", "20/8/26"; but "for 3-4 days" is a length, "7/10" how much it hurts, and "since 1/2 an hour" less than a day.
        void AddFigures()
        {
            for (var i = 0; i < words.Count; i++)
            {
                var isDate = words[i].Split('/', '-').Length == 3 || (words[i].Contains('/', StringComparison.Ordinal) && !Fractions.Contains(words[i]) && IsSince(i));
                if (isDate && DateReader.ReadFigures(words[i], today) is { } date && date <= today)
                    times.Add(new SaidTime(i, i, date, null, false, today));
            }
        }

        bool IsSince(int at) => scopes.Of("since an event").Any(s => s.Last == at - 1 || (s.Last == at - 2 && words.IsSideWord(at - 1)));

        int? Count(Finding<Trigger> unit)
        {
            if (unit.First == 0)
                return FigureWith(words[unit.First]);
            if (book.NumberOf(words[unit.First - 1]) is { } number)
                return char.IsAsciiDigit(words[unit.First - 1][0]) || number > 1 || IsMarked(unit) ? number : null;
            if (scopes.Of("one of them").Any(o => o.Last == unit.First - 1))
                return 1;
            return scopes.Of("couple").Any(c => c.Last == unit.First - 1) ? 2 : FigureWith(words[unit.First]);
        }

        // "A week ago", and not "four times a week".
        bool IsMarked(Finding<Trigger> unit) => scopes.Of("since").Any(s => s.Last == unit.First - 2) || scopes.Of("ago").Any(a => a.First == unit.Last + 1);

        // "3wks" is one word.
        int? FigureWith(string word)
        {
            var digits = 0;
            while (digits < word.Length && char.IsAsciiDigit(word[digits]))
                digits++;
            return digits is > 0 and < 4 && digits < word.Length ? int.Parse(word.AsSpan(0, digits), System.Globalization.CultureInfo.InvariantCulture) : null;
        }

        LocalDate LastWeekday(int isoDay)
        {
            var back = ((int)today.DayOfWeek - isoDay + DaysInWeek) % DaysInWeek;
            return today.PlusDays(back == 0 ? -DaysInWeek : -back);
        }

        void AddMonths()
        {
            for (var i = 0; i < words.Count; i++)
            {
                if (Ordinal(book, words[i]) is not { } day || day > 31)
                    continue;
                var month = MonthAt(i + 1) ?? MonthAt(i + 2) ?? MonthAt(i - 1);
                var year = today.Year;
                if (month is null && (!char.IsAsciiLetter(words[i][^1]) || !IsPointedAt(i)))
                    continue;
                var of = month ?? today.Month;
                if (day > CalendarSystem.Iso.GetDaysInMonth(year, of))
                    continue;
                var date = new LocalDate(year, of, day);
                if (date > today)
                    date = month is null ? date.PlusMonths(-1) : date.PlusYears(-1);
                times.Add(new SaidTime(i, i, date, null, false, today));
            }
        }

        // "on the 4th", and not "my 4th infection".
        bool IsPointedAt(int at) => scopes.Of("since").Any(s => s.Last == at - 1 || (s.Last == at - 2 && words.IsSideWord(at - 1)));

        int? MonthAt(int at)
        {
            for (var m = 0; m < Months.Length; m++)
            {
                if (scopes.Of(Months[m]).Any(t => t.First == at))
                    return m + 1;
            }

            return null;
        }
    }

    static int? Ordinal(PhraseBook book, string word)
    {
        var digits = 0;
        while (digits < word.Length && char.IsAsciiDigit(word[digits]))
            digits++;
        if (digits is 0 or > 2)
            return null;
        return word.Length == digits || (word.Length == digits + 2 && book.IsDayEnding(word[digits..])) ? int.Parse(word.AsSpan(0, digits), System.Globalization.CultureInfo.InvariantCulture) : null;
    }
}
