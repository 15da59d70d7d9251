using System.Globalization;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <summary>Ties the times in a message to what began or ended then.</summary>
sealed class Course(PhraseBook book, MessageWords words, Scopes scopes, List<SaidTime> read)
{
    public void AddTo(List<SaidFact> facts)
    {
        var ages = facts.Where(f => book.InYears.Contains(f.Fact)).Select(f => f.Span).ToList();
        var times = read.Where(t => !ages.Exists(a => Between(a, words.Cover(Math.Max(0, t.First), t.Last)) == 0)).ToList();
        foreach (var (thing, date) in book.BeganOn)
        {
            if (Affirmed(facts, thing) is { } said && (SinceThen(times, facts, said) ?? Nearest(times, facts, said, IsBeginning) ?? Nearest(times, facts, said, (t, p) => IsLengthOf(t, p, said))) is { } time)
                Add(facts, said, date, DayOf(time), time);
        }

        foreach (var (thing, date) in book.EndedOn)
        {
            if (facts.Find(f => f.Fact == thing.Index && f.Standing is Standing.Affirmed or Standing.Past or Standing.Mentioned) is { } said && Nearest(times, facts, said, IsEnd) is { Day: { } day } time)
                Add(facts, said, date, date.Counted is null ? Number(Period.Between(day, time.Today, PeriodUnits.Months).Months) : DayOf(time), time);
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
        if (Nearest(times, facts, said, (t, _) => t.IsSpan) is { Days: { } days } time)
            Add(facts, said, over, Number(days), time);
        else if (scopes.Of("over a night") is [var night, ..])
            AddAt(facts, said, over, "1", night.First, night.Last);
        else if (scopes.Of("at once") is [var pace, ..])
            AddAt(facts, said, over, "0", pace.First, pace.Last);
        else if (scopes.Of("slowly").Count > 0 && Nearest(times, facts, said, (t, _) => t.Days is not null) is { Days: { } slowDays } slow)
            Add(facts, said, over, Number(slowDays), slow);
    }

    /// <summary>A time with a word such as "since" or "ago" beside it, or after "began", "woke up" and the like in its sentence.</summary>
    bool IsBeginning(SaidTime time, Place place) => !time.IsSpan && (place == Place.InClause || !IsBeside(time, "ended", 8, 6))
        && (IsBeside(time, "since", 4, 2) || IsBeside(time, "ago", 4, 2) || IsBeside(time, "begun", 8, 8) || IsBeside(time, "changed", 8, 8));

    /// <summary>"Hurts 4 days", "3 days muffled": a length of time that touches the thing needs no word beside it.</summary>
    bool IsLengthOf(SaidTime time, Place place, SaidFact said) =>
        place == Place.InClause && time is { IsSpan: false, Days: not null } && Between(words.Cover(Math.Max(0, time.First), time.Last), said.Span) <= LettersOfTouching && !IsBeside(time, "ended", 8, 6);

    /// <summary>"Four since Christmas. The last cleared up in July": what goes on since a day did not end on it.</summary>
    bool IsEnd(SaidTime time, Place place) => !time.IsSpan && !scopes.Of("since an event").Any(s => s.Last == time.First - 1) && IsBeside(time, "ended", 8, 6);

    bool IsBeside(SaidTime time, string kind, int before, int after) =>
        scopes.Of(kind).Any(t => t.First <= time.First ? time.First - t.First <= before : Math.Abs(t.First - time.Last) <= after);

    /// <summary>"The gun went off yesterday and it has been dull ever since": the last day named before such words in the clause of the thing.</summary>
    SaidTime? SinceThen(List<SaidTime> times, List<SaidFact> facts, SaidFact said)
    {
        foreach (var then in scopes.Of("since then"))
        {
            var at = words.Cover(words.CommaClauseStart(then.First), words.CommaClauseEnd(then.Last) - 1);
            if (facts.Exists(f => f.Fact == said.Fact && Between(at, f.Span) == 0) && times.LastOrDefault(t => t.Last < then.First && !t.IsSpan) is { } time)
                return time;
        }

        return null;
    }

    /// <summary>The time that stands nearest, of those that belong to the thing; one of its own clause before others.</summary>
    SaidTime? Nearest(List<SaidTime> times, List<SaidFact> facts, SaidFact said, Func<SaidTime, Place, bool> fits)
    {
        var named = facts.Where(f => f.Standing != Standing.Mentioned && book.Dialog.Facts[f.Fact].Counted is null).ToList();
        SaidTime? nearest = null;
        var least = FarthestLetters;
        foreach (var time in times)
        {
            var first = Math.Max(0, time.First);
            var at = words.Cover(first, time.Last);
            var sentence = words.Cover(words.SentenceStart(first), words.SentenceEnd(time.Last) - 1);
            var away = facts.Where(f => f.Fact == said.Fact).Min(f => Away(at, sentence, f));
            var place = PlaceOf(named, said.Fact, time, at, sentence);
            if (place != Place.Elsewhere && fits(time, place) && away + (place == Place.Beside ? LettersOfClauseEnd : 0) < least)
                (nearest, least) = (time, away + (place == Place.Beside ? LettersOfClauseEnd : 0));
        }

        return nearest;
    }

    /// <summary>
    /// "A sore throat since Tuesday, my ear hurts": a time belongs to what is named before it in its clause, or behind it if nothing is, or else
    /// in its sentence. What shares times with others passes it on; anything else keeps it.
    /// </summary>
    Place PlaceOf(List<SaidFact> named, int thing, SaidTime time, TextSpan at, TextSpan sentence)
    {
        if (SinceEvent(named, thing, time) is { } place)
            return place;
        if (named.Find(f => f.Span.Start < at.Start && f.Span.End > at.End && !book.SharesTimes.Contains(f.Fact)) is { } around)
            return around.Fact == thing ? Place.InClause : Place.Elsewhere;
        var clause = words.Cover(words.CommaClauseStart(Math.Max(0, time.First)), words.CommaClauseEnd(time.Last) - 1);
        var isAlone = true;
        foreach (var stretch in (TextSpan[])[clause, sentence])
        {
            var inside = named.Where(f => f.Span.Start >= stretch.Start && f.Span.End <= stretch.End && (stretch == clause || f.Standing != Standing.Denied)).ToList();
            var before = inside.Where(f => f.Span.Start < at.Start).OrderByDescending(f => f.Span.End);
            var after = inside.Where(f => f.Span.Start >= at.Start).OrderBy(f => f.Span.Start);
            if (before.Concat(after).FirstOrDefault(f => f.Fact == thing || !book.SharesTimes.Contains(f.Fact)) is { } owner)
                return owner.Fact != thing ? Place.Elsewhere : stretch == clause ? Place.InClause : Place.Beside;
            isAlone &= inside.Count == 0;
        }

        return isAlone && TellsOfBeginning(time) ? Place.Beside : Place.Elsewhere;
    }

    /// <summary>"It began on Thursday", and not "I sing on Thursday".</summary>
    bool TellsOfBeginning(SaidTime time)
    {
        var (start, end) = (words.SentenceStart(Math.Max(0, time.First)), words.SentenceEnd(time.Last));
        return Array.Exists(Beginnings, k => scopes.Of(k).Any(t => t.First >= start && t.First < end));
    }

    static readonly string[] Beginnings = ["begun", "changed", "since an event", "ago", "ended", "over a time"];

    /// <summary>"Sore since the suction on Monday": the time of what stands behind "since" is that of what stands before it.</summary>
    Place? SinceEvent(List<SaidFact> named, int thing, SaidTime time)
    {
        var start = words.CommaClauseStart(Math.Max(0, time.First));
        if (scopes.Of("since an event").LastOrDefault(s => s.First > start && s.First < time.First) is not { } since)
            return null;
        var stretch = words.Cover(start, since.First);
        var before = named.Where(f => f.Span.Start >= stretch.Start && f.Span.Start < words.Own(since.First).Span.Start).OrderByDescending(f => f.Span.Start);
        return before.FirstOrDefault(f => f.Fact == thing || !book.SharesTimes.Contains(f.Fact)) is { } owner ? owner.Fact == thing ? Place.InClause : Place.Elsewhere : null;
    }

    enum Place
    {
        InClause,
        Beside,
        Elsewhere,
    }

    static int Away(TextSpan at, TextSpan sentence, SaidFact fact) =>
        Between(at, fact.Span) + (Between(sentence, fact.Span) > 0 ? LettersOfSentenceEnd : 0);

    static int Between(TextSpan one, TextSpan other) =>
        one.Start > other.End ? one.Start - other.End : other.Start > one.End ? other.Start - one.End : 0;

    /// <summary>A time farther away than this belongs to something else; the end of a clause or of a sentence counts as so many letters. Limits of the machine.</summary>
    const int LettersOfTouching = 5, FarthestLetters = 130, LettersOfSentenceEnd = 40, LettersOfClauseEnd = 20;
}
