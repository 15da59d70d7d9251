using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Patients;

/// <summary>Whether conditions hold over answers, as far as that is certain: null where an answer could still change it.</summary>
public sealed class WhatHolds(Dialog dialog, ImmutableArray<Answer> answers)
{
    public bool? Applies(Fact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return All(fact.AppliesWhen);
    }

    public bool? Holds(Condition condition)
    {
        ArgumentNullException.ThrowIfNull(condition);
        if (condition.Of.IsNamedFact)
            return Within(MayBe(dialog.NamedFacts[condition.Of.Index]), condition.Values);
        var applies = Applies(dialog.Facts[condition.Of.Index]);
        if (applies == false)
            return false;
        return answers[condition.Of.Index] is Answer.Asked asked && Within(asked.MayBe, condition.Values) is { } within
            ? within ? applies : false
            : null;
    }

    static bool? Within(ValueSet mayBe, ValueSet wanted) =>
        mayBe.IsSubsetOf(wanted) ? true : mayBe.Overlaps(wanted) ? null : false;

    ValueSet MayBe(NamedFact named)
    {
        var mayBe = ValueSet.Empty;
        foreach (var row in named.Rows)
        {
            var holds = All(row.Conditions);
            if (holds != false)
                mayBe = mayBe.Union(ValueSet.Of(row.Value));
            if (holds == true)
                return mayBe;
        }

        return named.Otherwise is { } otherwise ? mayBe.Union(ValueSet.Of(otherwise)) : mayBe;
    }

    bool? All(ImmutableArray<Condition> conditions)
    {
        bool? all = true;
        foreach (var condition in conditions)
        {
            var holds = Holds(condition);
            if (holds == false)
                return false;
            if (holds is null)
                all = null;
        }

        return all;
    }
}
