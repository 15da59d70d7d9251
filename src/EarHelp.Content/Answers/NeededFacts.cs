using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Answers;

/// <summary>What must be asked before an answer is shown: the red flags of the safety screens first, then what the page rests on.</summary>
sealed class NeededFacts(Dialog dialog)
{
    readonly SortedSet<int> _facts = [];
    readonly HashSet<int> _named = [];

    /// <summary>Indexes of facts; facts are numbered in asking order, so the red flags stand first.</summary>
    public ImmutableArray<int> Of(IEnumerable<FactReference> references)
    {
        var redFlags = dialog.Facts.Where(f => f.RedFlag is RedFlag.Marked && f.AskIn == AskIn.Safety).Select(f => new FactReference(false, f.Index));
        foreach (var reference in redFlags.Concat(references))
            Add(reference);
        return [.. _facts];
    }

    // What a named fact follows from, and what decides whether a fact applies, is needed too. A faulty dialog may turn in circles.
    void Add(FactReference of)
    {
        if (of.IsNamedFact)
        {
            if (of.Index < dialog.NamedFacts.Length && _named.Add(of.Index))
                AddAll(dialog.NamedFacts[of.Index].Rows.SelectMany(r => r.Conditions));
        }
        else if (of.Index < dialog.Facts.Length && _facts.Add(of.Index))
        {
            AddAll(dialog.Facts[of.Index].AppliesWhen);
        }
    }

    void AddAll(IEnumerable<Condition> conditions)
    {
        foreach (var condition in conditions)
            Add(condition.Of);
    }
}
