using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Conversation.Stepping;

/// <summary>Whether a condition holds, over answers that are sets.</summary>
enum Truth
{
    No,
    Perhaps,
    Yes,
}

/// <summary>Evaluates the conditions that say when a fact applies. Never says <see cref="Truth.No"/> unless it is certain.</summary>
static class Holds
{
    public static Truth All(Dialog dialog, ReadOnlySpan<Condition> conditions, ReadOnlySpan<Answer> answers)
    {
        var all = Truth.Yes;
        foreach (var condition in conditions)
        {
            var one = Of(dialog, condition, answers);
            if (one == Truth.No)
                return Truth.No;
            if (one == Truth.Perhaps)
                all = Truth.Perhaps;
        }

        return all;
    }

    public static Truth Of(Dialog dialog, Condition condition, ReadOnlySpan<Answer> answers)
    {
        if (condition.Of.IsNamedFact)
            return OfNamed(dialog, condition, answers);
        switch (answers[condition.Of.Index])
        {
            case Answer.NotApplicable:
                return Truth.No;
            case Answer.Asked { MayBe: var mayBe }:
                if (mayBe.Only is { } only)
                    return condition.Values.Contains(only) ? Truth.Yes : Truth.No;
                if (!mayBe.Overlaps(condition.Values))
                    return Truth.No;
                return mayBe.IsSubsetOf(condition.Values) ? Truth.Yes : Truth.Perhaps;
            default:
                return Truth.Perhaps;
        }
    }

    /// <summary>Adds the facts that were asked and make a condition true, or may do so.</summary>
    public static void CollectFacts(Dialog dialog, Condition condition, ReadOnlySpan<Answer> answers, List<int> facts)
    {
        if (Of(dialog, condition, answers) == Truth.No)
            return;
        if (!condition.Of.IsNamedFact)
        {
            if (answers[condition.Of.Index] is Answer.Asked && !facts.Contains(condition.Of.Index))
                facts.Add(condition.Of.Index);
            return;
        }

        var named = dialog.NamedFacts[condition.Of.Index];
        var isCertain = Of(dialog, condition, answers) == Truth.Yes;
        foreach (var row in named.Rows)
        {
            if (!condition.Values.Contains(row.Value))
                continue;
            var holds = All(dialog, row.Conditions.AsSpan(), answers);
            if (holds == Truth.No || (isCertain && holds == Truth.Perhaps && !AreAllAsked(dialog, row.Conditions.AsSpan(), answers)))
                continue;
            foreach (var inner in row.Conditions)
                CollectFacts(dialog, inner, answers, facts);
        }
    }

    static bool AreAllAsked(Dialog dialog, ReadOnlySpan<Condition> conditions, ReadOnlySpan<Answer> answers)
    {
        foreach (var condition in conditions)
        {
            if (!condition.Of.IsNamedFact && answers[condition.Of.Index] is Answer.NotAsked)
                return false;
        }

        return true;
    }

    /// <summary>The first row that fits gives the value: each value that some row may give, up to one that fits for certain, is possible.</summary>
    static Truth OfNamed(Dialog dialog, Condition condition, ReadOnlySpan<Answer> answers)
    {
        var named = dialog.NamedFacts[condition.Of.Index];
        bool maySatisfy = false, mayNot = false;
        foreach (var row in named.Rows)
        {
            var holds = All(dialog, row.Conditions.AsSpan(), answers);
            if (holds == Truth.No)
                continue;
            Note(row.Value);
            if (holds == Truth.Yes)
                return Result();
        }

        if (named.Otherwise is { } otherwise)
            Note(otherwise);
        return Result();

        void Note(int value)
        {
            if (condition.Values.Contains(value))
                maySatisfy = true;
            else
                mayNot = true;
        }

        Truth Result() => !maySatisfy ? Truth.No : mayNot ? Truth.Perhaps : Truth.Yes;
    }
}
