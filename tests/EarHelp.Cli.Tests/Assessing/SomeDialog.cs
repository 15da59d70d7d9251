using System.Collections.Immutable;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Cli.Tests.Assessing;

/// <summary>A small invented dialog about a noisy ear; nothing in it is clinical.</summary>
static class SomeDialog
{
    const int EarsAffected = 0;
    const int Age = 1;
    const int Faint = 2;
    const int Noise = 3;
    const int Since = 4;
    const int Fever = 5;

    public static Dialog Make() => new(
        "noise",
        30,
        [
            Named(EarsAffected, "ears affected", About.Person, null, [], "left", "right", "both"),
            Number(Age, "age", About.Person, new FactValues.Numbers(0, 120, 1, "years"), null),
            Named(Faint, "faint", About.Person, 1, [], "yes", "no"),
            Named(Noise, "noise", About.Ear, 2, [], "roaring", "humming", "none"),
            Number(Since, "noise began on", About.Ear, new FactValues.Numbers(0, 400, 1, "days"), new CountedFromDate("days since noise", CountUnit.Days), On(Noise, 0, 1)),
            Number(Fever, "temperature", About.Person, new FactValues.Numbers(34, 43, 0.1m, "°C"), null),
        ],
        [],
        [Screen(EarsAffected, "ears affected"), Screen(Age, "age"), Screen(Faint, "faint"), Screen(Noise, "noise", About.Ear), Screen(Since, "noise began on", About.Ear), Screen(Fever, "temperature")],
        [
            Rule(0, "N-01", 0, [1], [On(Faint, 0)]),
            Rule(1, "N-02", 1, [0, 1], [On(Noise, 0)], warn: ["it can get worse"]),
            Rule(2, "N-03", 2, [0], [On(Noise, 1), Between(Since, 0, 13)], countsFrom: Since),
            Rule(3, "N-09", 3, [0, 1], []),
        ],
        [new TreatRule(0, "T-01", [On(Noise, 0)], "somebody has looked", "b", [], default), new TreatRule(1, "T-02", [], null, "b", [], default)],
        [
            new AdviceItem(0, "rest", AdviceKind.ToDo, About.Person, [], [On(Faint, 0)], null, [], default),
            new AdviceItem(1, "plug", AdviceKind.LeaveAlone, About.Ear, [On(Noise, 0, 1)], [], null, [], default),
        ],
        [new Explanation(0, "what humming is", [On(Noise, 1)], [], default)],
        [new ImpossiblePair(Between(Age, 0, 0), On(Faint, 0), "nobody that young is asked", default)],
        [
            new Level(0, "now", Period.FromMinutes(0), "PT0M", default),
            new Level(1, "within a day", Period.FromHours(24), "PT24H", default),
            new Level(2, "in two weeks", Period.FromDays(14), "P14D", default),
            new Level(3, "no hurry", null, null, default),
        ],
        [
            new Destination(0, "this clinic", DestinationHours.Clinic, null, default),
            new Destination(1, "hospital", DestinationHours.Always, null, default),
        ]);

    /// <summary>Open on working days from nine to five, a visit takes forty minutes.</summary>
    public static Triage.Editions.Clinic Clinic() => new(
        "Some clinic", "Sometown", "Somewhere", "1 Some Street", DateTimeZoneProviders.Tzdb["Europe/London"],
        "000", "001", "some@example.org", "002", 40, "999", "text", "003", "004",
        [.. Enumerable.Range(1, 5).Select(d => new OpenHours((IsoDayOfWeek)d, new LocalTime(9, 0), new LocalTime(17, 0)))],
        [], [new Holiday(new LocalDate(2028, 12, 25), "a holiday")], []);

    static Fact Named(int index, string id, About about, int? clear, ImmutableArray<Condition> applies, params ImmutableArray<string> names) => new(
        index, id, about, new FactValues.Named(names), null, AskIn.Story, new Worse.NoDirection("invented"), clear, new RedFlag.Unmarked(), applies, default);

    static Fact Number(int index, string id, About about, FactValues.Numbers values, CountedFromDate? counted, params ImmutableArray<Condition> applies) => new(
        index, id, about, values, counted, AskIn.Story, new Worse.NoDirection("invented"), null, new RedFlag.Unmarked(), applies, default);

    static Screen Screen(int index, string id, About about = About.Person) => new(index, id, [index], AskIn.Story, about, default);

    static Rule Rule(
        int index, string id, int level, ImmutableArray<int> where, ImmutableArray<Condition> conditions, string[]? warn = null, int? countsFrom = null) => new(
        index, id, "How urgent", conditions, level, where, [.. warn ?? []], [], [], countsFrom, "b", [], "high", [], default);

    static Condition On(int fact, params int[] values) => new(new FactReference(false, fact), ValueSet.OfMany(values), "written", default);

    static Condition Between(int fact, int first, int last) => new(new FactReference(false, fact), ValueSet.Between(first, last), "written", default);
}
