using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Tests.Randomly;

/// <summary>Reads the tables row by row, for one patient after another: slow, short, and written without a look at the diagrams.</summary>
public sealed class PlainReading(Dialog dialog)
{
    public bool Holds(Condition condition, int[] patient)
    {
        if (condition.Of.IsNamedFact)
            return condition.Values.Contains(NamedValue(dialog.NamedFacts[condition.Of.Index], patient));
        var fact = dialog.Facts[condition.Of.Index];
        return fact.AppliesWhen.All(c => Holds(c, patient)) && condition.Values.Contains(patient[fact.Index]);
    }

    public bool IsPossible(int[] patient) => !dialog.Impossible.Any(i => Holds(i.One, patient) && Holds(i.Other, patient));

    /// <summary>A row without conditions is for those whom no other row with a level foresaw.</summary>
    public bool Matches(Rule rule, int[] patient) =>
        rule.Level is not null && rule.Conditions.IsEmpty
            ? !dialog.Rules.Any(r => r.Level is not null && !r.Conditions.IsEmpty && Matches(r, patient))
            : rule.Conditions.All(c => Holds(c, patient));

    public PlainResult Read(int[] patient)
    {
        var matching = dialog.Rules.Where(r => Matches(r, patient)).ToArray();
        var deciding = matching.Where(r => r.Level is not null).OrderBy(r => r.Level).ThenBy(r => r.Index).First();
        ImmutableArray<int> where =
            [.. deciding.Where.Where(d => dialog.Destinations[d].ReachedWhen is not { } reached || Holds(reached, patient))];
        var treat = dialog.TreatRules.FirstOrDefault(t => t.Conditions.All(c => Holds(c, patient)));
        var holds = dialog.TreatRules.Select(t => t.Hold).Distinct().ToList();
        return new PlainResult(
            deciding.Level!.Value,
            where.ToHashSet(),
            treat is null ? 0 : holds.IndexOf(treat.Hold),
            [.. dialog.Advice.Select(a => IsCalledFor(a, matching, patient, deciding.Level.Value))],
            matching.Any(r => !r.Warn.IsEmpty));
    }

    /// <summary>The result of every member of a set of patients, put together; null if none is possible.</summary>
    public PlainResult? ReadAll(IEnumerable<int[]> patients)
    {
        PlainResult? all = null;
        foreach (var patient in patients.Where(IsPossible))
        {
            var one = Read(patient);
            all = all is null ? one : all.With(one, dialog);
        }

        return all;
    }

    bool IsCalledFor(AdviceItem item, Rule[] matching, int[] patient, int level)
    {
        var isGivenByRule = matching.Any(r => r.Give.Contains(item.Index));
        var isNamedByRule = dialog.Rules.Any(r => r.Give.Contains(item.Index));
        var isCalled = isGivenByRule || (item.OnlyIf.All(c => Holds(c, patient)) && !(isNamedByRule && item.OnlyIf.IsEmpty));
        var isForbidden = item.NeverIf.Any(c => Holds(c, patient))
            || matching.Any(r => r.Withhold.Contains(item.Index))
            || (item.NotWhile is { } rank && level <= rank);
        return isCalled && !isForbidden;
    }

    int NamedValue(NamedFact named, int[] patient) =>
        named.Rows.FirstOrDefault(r => r.Conditions.All(c => Holds(c, patient)))?.Value ?? named.Otherwise!.Value;
}

public sealed record PlainResult(int Rank, HashSet<int> Where, int Treat, ImmutableArray<bool> Advice, bool Warns)
{
    public PlainResult With(PlainResult other, Dialog dialog) =>
        new(
            Math.Min(Rank, other.Rank),
            Rank == other.Rank ? [.. Where, .. other.Where] : Rank < other.Rank ? Where : other.Where,
            Math.Min(Treat, other.Treat),
            [.. Advice.Select((a, i) => dialog.Advice[i].Kind == AdviceKind.ToDo ? a && other.Advice[i] : a || other.Advice[i])],
            Warns || other.Warns);

    public bool Equals(PlainResult? other) =>
        other is not null
        && Rank == other.Rank
        && Where.SetEquals(other.Where)
        && Treat == other.Treat
        && Advice.SequenceEqual(other.Advice)
        && Warns == other.Warns;

    public override int GetHashCode() => HashCode.Combine(Rank, Treat, Warns);
}
