using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Properties;

/// <summary>What every property needs: the space of patients, the words, and the rows that decide.</summary>
sealed class ProofContext
{
    ImmutableArray<int>? _beforeMe;

    public ProofContext(ProofSpace space, Edition? edition)
    {
        (Space, Edition) = (space, edition);
        Smallest = new SmallestPatient(space, FactNames.Of(edition));
    }

    public ProofSpace Space { get; }

    public Dialog Dialog => Space.Dialog;

    /// <summary>Null: the words are not looked at.</summary>
    public Edition? Edition { get; }

    public SmallestPatient Smallest { get; }

    /// <summary>The rows with a level, from the one that gives way to none.</summary>
    public ImmutableArray<Rule> Deciding => [.. Dialog.Rules.Where(r => r.Level is not null).OrderBy(r => r.Level).ThenBy(r => r.Index)];

    public BigInteger Count(int set) => Space.Count.Of(set);

    public string NameOf(Condition condition) =>
        condition.Of.IsNamedFact ? Dialog.NamedFacts[condition.Of.Index].Id : Dialog.Facts[condition.Of.Index].DecidingId;

    /// <summary>By rule, the possible patients who meet a row with a level that goes before it.</summary>
    public ImmutableArray<int> BeforeMe => _beforeMe ??= FindBeforeMe();

    /// <summary>The patients who get their level from the rule.</summary>
    public int DecidedBy(Rule rule) => Space.And(Space.Possible, Space.Without(Space.Matches[rule.Index], BeforeMe[rule.Index]));

    /// <summary>Where the row stands that decides for a patient; empty if none does.</summary>
    public ImmutableArray<SourceSpot> RowDeciding(ReadOnlySpan<int> classes)
    {
        foreach (var rule in Deciding)
        {
            if (Space.EndOf(Space.Matches[rule.Index], classes) == Terminal.True)
                return [rule.Spot];
        }

        return [];
    }

    ImmutableArray<int> FindBeforeMe()
    {
        var before = new int[Dialog.Rules.Length];
        Array.Fill(before, Terminal.False);
        var met = Terminal.False;
        foreach (var rule in Deciding)
        {
            before[rule.Index] = met;
            met = Space.Builder.Or(met, Space.Matches[rule.Index]);
        }

        return [.. before];
    }
}
