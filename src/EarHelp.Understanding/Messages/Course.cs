using System.Globalization;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <summary>Ties the times in a message to what began or ended then.</summary>
sealed class Course(PhraseBook book, MessageWords words, Scopes scopes, LocalDate today)
{
    public void AddTo(List<SaidFact> facts)
    {
        var times = Times.Read(book, words, scopes, today);
        foreach (var (thing, date) in book.BeganOn)
        {
            if (Affirmed(facts, thing) is { } said && (SinceThen(times, facts, said) ?? Nearest(times, facts, said, IsBeginning)) is { } time)
                Add(facts, said, date, DayOf(time), time);
        }

        foreach (var (thing, date) in book.EndedOn)
        {
            if (facts.Find(f => f.Fact == thing.Index && f.Standing is Standing.Affirmed or Standing.Past or Standing.Mentioned) is { } said && Nearest(times, facts, said, IsEnd) is { Day: { } day } time)
                Add(facts, said, date, date.Counted is null ? Number(Period.Between(day, today, PeriodUnits.Months).Months) : DayOf(time), time);
        }

        foreach (var (thing, over) in book.TookDays)
        {
            if (Affirmed(facts, thing) is { } said)
                AddPace(facts, said, over, times);
        }
    }

    /// <summary>Said, and not as its clear value.</summary>
    static SaidFact? Affirmed(List<SaidFact> facts, Fact thing) =>
        facts.Find(f => f.Fact == thing.Index && f.Standing == Standing.Affirmed && (thing.Clear is not { } clear || f.Written != thing.Values.NameOf(clear)));

    void Add(List<SaidFact> facts, SaidFact said, Fact of, string? written, SaidTime time) =>
        AddAt(facts, said, of, written, Math.Max(0, time.First), time.Last);

    void AddAt(List<SaidFact> facts, SaidFact said, Fact of, string? written, int first, int last)
    {
        if (written is not null && (of.Counted is not null || of.Values.IndexOf(written) is not null))
            facts.Add(new SaidFact(of.Index, written, of.About == About.Ear ? said.Ear : null, Standing.Affirmed, false, words.Cover(first, last)));
    }

    static string? DayOf(SaidTime time) => time is { IsSpan: false, Day: { } day } ? day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture) : null;

    static string Number(int figure) => figure.ToString(CultureInfo.InvariantCulture);

    void AddPace(List<SaidFact> facts, SaidFact said, Fact over, List<SaidTime> times)
    {
        var isSlow = scopes.Of("slowly").Count > 0;
        if (Nearest(times, facts, said, t => t.IsSpan || (isSlow && t.Days is not null)) is { Days: { } days } time)
            Add(facts, said, over, Number(days), time);
        else if (scopes.Of("at once") is [var pace, ..])
            AddAt(facts, said, over, "0", pace.First, pace.Last);
        else if (scopes.Of("over a night") is [var night, ..])
            AddAt(facts, said, over, "1", night.First, night.Last);
    }

    /// <summary>A time with a word such as "since" or "ago" beside it, or after "began", "woke up" and the like in its sentence.</summary>
    bool IsBeginning(SaidTime time) => !time.IsSpan
        && (IsBeside(time, "since", 4, 2) || IsBeside(time, "ago", 4, 2) || IsBeside(time, "begun", 8, 8) || IsBeside(time, "changed", 8, 8));

    bool IsEnd(SaidTime time) => !time.IsSpan && IsBeside(time, "ended", 8, 6);

    bool IsBeside(SaidTime time, string kind, int before, int after) =>
        scopes.Of(kind).Any(t => t.First <= time.First ? time.First - t.First <= before : Math.Abs(t.First - time.Last) <= after);

    /// <summary>"The gun went off yesterday and it has been dull ever since": the last day named before such words in the sentence of the thing.</summary>
    SaidTime? SinceThen(List<SaidTime> times, List<SaidFact> facts, SaidFact said)
    {
        foreach (var then in scopes.Of("since then"))
        {
            var at = words.Cover(words.SentenceStart(then.First), words.SentenceEnd(then.Last) - 1);
            if (facts.Exists(f => f.Fact == said.Fact && Between(at, f.Span) == 0) && times.LastOrDefault(t => t.Last < then.First && !t.IsSpan) is { } time)
                return time;
        }

        return null;
    }

    /// <summary>The time that stands nearest, unless something else with a time of its own stands nearer to it.</summary>
    SaidTime? Nearest(List<SaidTime> times, List<SaidFact> facts, SaidFact said, Func<SaidTime, bool> fits)
    {
        SaidTime? nearest = null;
        var least = FarthestLetters;
        foreach (var time in times.Where(fits))
        {
            var at = words.Cover(Math.Max(0, time.First), time.Last);
            var sentence = words.Cover(words.SentenceStart(Math.Max(0, time.First)), words.SentenceEnd(time.Last) - 1);
            var away = facts.Where(f => f.Fact == said.Fact).Min(f => Away(at, sentence, f));
            if (away < least && facts.TrueForAll(f => book.SharesTimes.Contains(f.Fact) || Away(at, sentence, f) + LettersAsNear >= away))
                (nearest, least) = (time, away);
        }

        return nearest;
    }

    static int Away(TextSpan at, TextSpan sentence, SaidFact fact) =>
        Between(at, fact.Span) + (Between(sentence, fact.Span) > 0 ? LettersOfSentenceEnd : 0);

    static int Between(TextSpan one, TextSpan other) =>
        one.Start > other.End ? one.Start - other.End : other.Start > one.End ? other.Start - one.End : 0;

    /// <summary>A time farther away than this belongs to something else; the end of a sentence counts as so many letters. Limits of the machine.</summary>
    const int FarthestLetters = 130, LettersAsNear = 30, LettersOfSentenceEnd = 40;
}
