using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace Benchmarks.Rules;

/// <summary>A patient with one affected ear, all of whose facts are known.</summary>
/// <param name="Values">By fact: the index of the value, or null where the fact does not apply.</param>
sealed record Patient(Dialog Dialog, ImmutableArray<int?> Values)
{
    /// <summary>Answers drawn with a fixed seed: mostly clear, as patients mostly are.</summary>
    /// <param name="clearPercent">How often a fact takes its clear value.</param>
    public static Patient Draw(Dialog dialog, Random chance, int clearPercent)
    {
        var values = new int?[dialog.Facts.Length];
        foreach (var fact in dialog.Facts)
        {
            if (fact.AppliesWhen.All(c => Holds(dialog, c, values)))
                values[fact.Index] = fact.Clear is { } clear && chance.Next(100) < clearPercent ? clear : chance.Next(fact.Values.Count);
        }

        return new Patient(dialog, [.. values]);
    }

    /// <summary>By fact, what a person with no sign of anything would answer; a fact without a clear value is answered by its middle value.</summary>
    public static Answer[] Clear(Dialog dialog) =>
        [.. dialog.Facts.Select(f => new Answer.Asked(ValueSet.Of(f.Clear ?? (f.Values.Count / 2))))];

    public EarAnswers Answers() => new(
        Ear.Left,
        [.. Values.Select(v => v is { } index ? new Answer.Asked(ValueSet.Of(index)) : Answer.DoesNotApply)]);

    static bool Holds(Dialog dialog, Condition condition, int?[] values)
    {
        if (!condition.Of.IsNamedFact)
            return values[condition.Of.Index] is { } value && condition.Values.Contains(value);
        var named = dialog.NamedFacts[condition.Of.Index];
        var row = named.Rows.FirstOrDefault(r => r.Conditions.All(c => Holds(dialog, c, values)));
        return (row?.Value ?? named.Otherwise) is { } given && condition.Values.Contains(given);
    }
}
