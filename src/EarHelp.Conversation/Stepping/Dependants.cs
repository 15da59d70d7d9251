using System.Collections.Immutable;
using EarHelp.Conversation.States;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>Answers that no longer apply after another answer has changed.</summary>
static class Dependants
{
    public static (ConversationState State, ImmutableArray<FactOfEar> Dropped) Drop(ServedEdition edition, ConversationState state, Instant now)
    {
        var dropped = ImmutableArray.CreateBuilder<FactOfEar>();
        var ears = AnswerView.EarsOf(edition.Dialog, state);
        foreach (var answer in state.Answers)
        {
            var fact = edition.Dialog.Facts[answer.Of.Fact];
            var isOfOtherEar = answer.Of.Ear is { } ear && !ears.Contains(ear);
            if (isOfOtherEar || fact.AppliesWhen.Any(c => IsSurelyFalse(edition, state, c, answer.Of, now)))
            {
                dropped.Add(answer.Of);
                state = state with { Answers = state.Answers.Remove(answer) };
            }
        }

        return (state, dropped.ToImmutable());
    }

    static bool IsSurelyFalse(ServedEdition edition, ConversationState state, Condition condition, FactOfEar of, Instant now)
    {
        if (condition.Of.IsNamedFact)
            return false;
        var fact = edition.Dialog.Facts[condition.Of.Index];
        var said = state.Answers.Find(new FactOfEar(fact.Index, fact.About == About.Ear ? of.Ear : null));
        return said is not null && !AnswerView.ValuesOf(edition, state, fact, said, now).Overlaps(condition.Values);
    }
}
