using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;

namespace EarHelp.Conversation.Stepping;

/// <summary>What follows when an answer has led, or a sign would lead, to the most urgent level.</summary>
static class Alarms
{
    /// <summary>The answers that make a row of the most urgent level match. Empty unless that level is certain now.</summary>
    public static ImmutableArray<FactOfEar> AnswersThatLedToNow(Draft draft)
    {
        if (draft.Reached.IsEmpty || draft.Reached[0].Rank > 0)
            return [];
        var views = draft.View();
        var said = draft.Edition.Decide(views).Assessment;
        if (said.AtLeast > 0)
            return [];
        var found = ImmutableArray.CreateBuilder<FactOfEar>();
        var facts = new List<int>();
        foreach (var matched in said.Rules)
        {
            var rule = draft.Edition.Dialog.Rules[matched.Rule];
            if (rule.Level != 0)
                continue;
            facts.Clear();
            var view = ViewOf(views, matched.Ear);
            foreach (var condition in rule.Conditions)
                Holds.CollectFacts(draft.Edition.Dialog, condition, view.OfFact.AsSpan(), facts);
            foreach (var fact in facts)
            {
                var of = draft.Place(fact, matched.Ear);
                if (!found.Contains(of))
                    found.Add(of);
            }
        }

        return found.ToImmutable();
    }

    /// <summary>Once the most urgent level was certain, its text stays in sight, whatever is changed afterwards.</summary>
    public static void KeepInSight(Draft draft)
    {
        if ((draft.Reached.IsEmpty || draft.Reached[0].Rank > 0) && draft.Earlier.IsEmpty)
            return;
        foreach (var reply in draft.Replies)
        {
            if (reply is Reply.Outcome { Told.Rank: 0 } or Reply.Alarm { Level: not null })
                return;
        }

        draft.Replies.Insert(0, new Reply.Alarm(null, draft.Edition.Dialog.Levels[0].Id));
    }

    /// <summary>The text of the level to which a value would lead, if that is more urgent than what is certain without it.</summary>
    public static Reply.Alarm? Of(Draft draft, FactOfEar of, Said said)
    {
        var edition = draft.Edition;
        var without = edition.Decide(draft.View()).AtLeast;
        List<GivenAnswer> answers = [.. draft.Answers];
        AnswerList.Put(answers, of, said);
        var atLeast = edition.Decide(AnswerView.Of(edition, System.Runtime.InteropServices.CollectionsMarshal.AsSpan(answers), draft.Recorded, draft.Doubted, draft.Now, draft.Now)).AtLeast;
        return atLeast < without && atLeast < edition.OtherwiseRank ? new Reply.Alarm(null, edition.Dialog.Levels[atLeast].Id) : null;
    }

    static EarAnswers ViewOf(ImmutableArray<EarAnswers> views, Ear ear)
    {
        foreach (var view in views)
        {
            if (view.Ear == ear)
                return view;
        }

        return views[0];
    }
}
