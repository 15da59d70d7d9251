using System.Globalization;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <summary>Ties the times in a message to what began then.</summary>
sealed class Course(PhraseBook book, MessageWords words, Scopes scopes, LocalDate today)
{
    public void AddTo(List<SaidFact> facts)
    {
        var times = Times.Read(book, words, scopes, today);
        var pace = scopes.Of("at once").ToList();
        if (times.Count == 0 && pace.Count == 0)
            return;
        foreach (var (thing, date) in book.BeganOn)
        {
            if (Affirmed(facts, thing) is not { } said)
                continue;
            if (Nearest(times, facts, said, isSpan: false) is { Day: { } day } time && IsBeginning(time))
                facts.Add(new SaidFact(date.Index, day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), date.About == About.Ear ? said.Ear : null, Standing.Affirmed, false, words.Cover(Math.Max(0, time.First), time.Last)));
        }

        foreach (var (thing, over) in book.TookDays)
        {
            if (Affirmed(facts, thing) is { } said)
                AddPace(facts, said, over, times, pace);
        }
    }

    /// <summary>Said, and not as its clear value.</summary>
    static SaidFact? Affirmed(List<SaidFact> facts, Fact thing) =>
        facts.Find(f => f.Fact == thing.Index && f.Standing == Standing.Affirmed && (thing.Clear is not { } clear || f.Written != thing.Values.NameOf(clear)));

    void AddPace(List<SaidFact> facts, SaidFact said, Fact over, List<SaidTime> times, List<Finding<Trigger>> pace)
    {
        if (Nearest(times, facts, said, isSpan: true) is { Days: { } days } time && over.Values.IndexOf(days.ToString(CultureInfo.InvariantCulture)) is not null)
            facts.Add(new SaidFact(over.Index, days.ToString(CultureInfo.InvariantCulture), said.Ear, Standing.Affirmed, false, words.Cover(time.First, time.Last)));
        else if (pace.Count > 0)
            facts.Add(new SaidFact(over.Index, "0", said.Ear, Standing.Affirmed, false, words.Cover(pace[0].First, pace[0].Last)));
    }

    /// <summary>A time with a word such as "since" or "ago" beside it, or after "began", "woke up" and the like in its sentence.</summary>
    bool IsBeginning(SaidTime time)
    {
        foreach (var kind in (string[])["since", "ago", "begun", "changed"])
        {
            foreach (var trigger in scopes.Of(kind))
            {
                var isNear = kind is "since" or "ago" ? Math.Abs(trigger.First - time.First) <= 4 || Math.Abs(trigger.First - time.Last) <= 2 : Math.Abs(trigger.First - time.First) <= 8;
                if (isNear)
                    return true;
            }
        }

        return false;
    }

    /// <summary>The time that stands nearest, unless something else that is said stands nearer to it.</summary>
    SaidTime? Nearest(List<SaidTime> times, List<SaidFact> facts, SaidFact said, bool isSpan)
    {
        SaidTime? nearest = null;
        var least = FarthestLetters;
        foreach (var time in times.Where(t => t.IsSpan == isSpan))
        {
            var at = words.Cover(Math.Max(0, time.First), time.Last);
            var away = facts.Where(f => f.Fact == said.Fact).Min(f => Between(at, f.Span));
            if (away < least && facts.TrueForAll(f => Between(at, f.Span) + LettersAsNear >= away))
                (nearest, least) = (time, away);
        }

        return nearest;
    }

    static int Between(TextSpan one, TextSpan other) =>
        one.Start > other.End ? one.Start - other.End : other.Start > one.End ? other.Start - one.End : 0;

    /// <summary>A time farther away than this belongs to something else; a limit of the machine.</summary>
    const int FarthestLetters = 90, LettersAsNear = 30;
}
