using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.Laws;

/// <summary>What holds for every edition, held against a plain reading of the tables; each gives true where an engine keeps it for one edition.</summary>
static class EngineLaws
{
    const int Tries = 6;

    /// <summary>No set of answers that is sure to meet a row gets a level below it.</summary>
    public static bool Floor(Dialog dialog, RandomDialog chance, Engine engine)
    {
        var reading = new PlainReading(dialog);
        return Each(_ =>
        {
            var answers = Whole(dialog, chance);
            var members = Members(dialog, reading, answers);
            if (members.Length == 0)
                return true;
            var floor = dialog.Rules.Where(r => r.Level is not null && members.Any(m => reading.Matches(r, m))).Min(r => r.Level);
            return engine.Assess(answers) is { IsPossible: true } result && result.AtLeast <= floor;
        });
    }

    /// <summary>A set never gets a lower level than any of its members.</summary>
    public static bool Unsure(Dialog dialog, RandomDialog chance, Engine engine)
    {
        var reading = new PlainReading(dialog);
        return Each(_ =>
        {
            var answers = Whole(dialog, chance);
            var members = Members(dialog, reading, answers);
            return members.Length == 0 || engine.Assess(answers).AtLeast == members.Min(m => reading.Read(m).Rank);
        });
    }

    /// <summary>When asking stops, every completion has the same result; at the most urgent level, every completion has that level.</summary>
    public static bool Stop(Dialog dialog, RandomDialog chance, Engine engine)
    {
        var reading = new PlainReading(dialog);
        return Each(_ =>
        {
            var patient = dialog.Facts.Select(f => chance.Next(f.Values.Count)).ToArray();
            if (!reading.IsPossible(patient))
                return true;
            var answers = dialog.Facts.Select(_ => Answer.Unknown).ToImmutableArray();
            while (engine.Next(answers) is { } next)
                answers = next.Facts.Aggregate(answers, (a, f) => a.SetItem(f, new Answer.Asked(ValueSet.Of(patient[f]))));
            var results = AllPatients.Completions(dialog, answers)
                .Select(c => c.Select((value, fact) => value < 0 ? patient[fact] : value).ToArray())
                .Where(reading.IsPossible).Select(reading.Read).ToArray();
            return results.All(r => r.Rank == 0) || results.All(r => r.Equals(results[0]));
        });
    }

    /// <summary>Time alone never helps: a number that has counted on from one moment to another gets the worst level of all moments between.</summary>
    public static bool Clock(Dialog dialog, RandomDialog chance, Engine engine)
    {
        var reading = new PlainReading(dialog);
        return dialog.Facts.Where(f => f.Values is FactValues.Numbers).All(fact => Each(_ =>
        {
            var patient = dialog.Facts.Select(f => chance.Next(f.Values.Count)).ToArray();
            var (first, now) = (chance.Next(fact.Values.Count), fact.Values.Count - 1);
            ImmutableArray<Answer> answers = [.. patient.Select((v, i) => new Answer.Asked(i == fact.Index ? ValueSet.Between(first, now) : ValueSet.Of(v)))];
            var members = Members(dialog, reading, answers);
            return members.Length == 0 || engine.Assess(answers).AtLeast == members.Min(m => reading.Read(m).Rank);
        }));
    }

    static bool Each(Func<int, bool> holds) => Enumerable.Range(0, Tries).All(holds);

    /// <summary>Every fact answered: with one value, with several, or with "not sure".</summary>
    static ImmutableArray<Answer> Whole(Dialog dialog, RandomDialog chance) =>
        [.. chance.SomeAnswers(dialog).Select((a, i) => a is Answer.Asked ? a : new Answer.Asked(ValueSet.Of(chance.Next(dialog.Facts[i].Values.Count))))];

    static int[][] Members(Dialog dialog, PlainReading reading, ImmutableArray<Answer> answers) =>
        [.. AllPatients.Members(dialog, answers, new int[dialog.Facts.Length]).Where(reading.IsPossible)];
}
