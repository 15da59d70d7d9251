using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Facts;

namespace EarHelp.Conversation.Stepping;

/// <summary>Takes the wish to change an answer, to tell that something has changed, or to start over.</summary>
static class Changing
{
    /// <summary>The earlier answer counts until the new one is given. One that had led to the most urgent level is asked in other words.</summary>
    public static void TakeChange(Draft draft, TurnContent.Change change)
    {
        if (QuestionMaker.Answered(draft.Edition, draft.Answers, change.Screen, change.Ear) is not { } screen)
        {
            draft.AskAgain();
            return;
        }

        var wording = 1;
        foreach (var fact in screen.Facts)
        {
            if (draft.Alarming.Contains(new FactOfEar(fact, screen.Ear)))
                wording = 2;
        }

        draft.Ask(QuestionMaker.Of(draft.Edition, draft.Language, screen, wording, draft.Number), isChange: true);
    }

    /// <summary>
    /// After an outcome: what was asked for safety is asked again, with all that hangs on it, and the level may only become more urgent.
    /// </summary>
    public static void TakeSomethingChanged(Draft draft)
    {
        if (draft.Told is not { } told)
        {
            draft.AskAgain();
            return;
        }

        draft.Floor = told;
        draft.Pending = null;
        draft.SecondWordingDue = [];
        draft.Doubted = [];
        if (told.Rank > 0)
        {
            draft.Say("plan changed lead");
            for (var i = draft.Answers.Length - 1; i >= 0; i--)
            {
                if (HangsOnSafety(draft.Edition, draft.Answers[i].Of.Fact))
                    draft.Remove(draft.Answers[i].Of);
            }
        }

        new NextStep(draft).Take();
    }

    /// <summary>The answer comes as soon as all that it needs is known; a question that is open counts no more, and comes again if it matters.</summary>
    public static void TakeAskAbout(Draft draft, string answer)
    {
        if (!draft.Edition.Edition.Wordings[draft.Language].Answers.ContainsKey(answer))
        {
            draft.AskAgain();
            return;
        }

        draft.About = answer;
        draft.Pending = null;
        var told = draft.Replies.Count;
        new NextStep(draft).Take();
        if (draft.About is not null)
            draft.Replies.Insert(told, Sayings.Plain("answer follows"));
    }

    /// <summary>What was told may not be right any more: what is not known now is asked, and the outcome is told anew.</summary>
    public static void TakeRecordedAnew(Draft draft, TurnContent.RecordedAnew anew)
    {
        if (anew.Version <= draft.RecordVersion)
            return;
        draft.Say("visit corrected");
        draft.RecordAnew(anew.Version, anew.Recorded);
        draft.SayRecorded();
        draft.Pending = null;
        new NextStep(draft).Take();
    }

    public static void TakeStartOver(Draft draft)
    {
        foreach (var of in draft.Alarming)
            draft.Remove(of);
        draft.Forget();
        draft.Say("started over");
        new NextStep(draft).Take();
    }

    /// <summary>True for the safety screens, and for a fact that applies only through one of their answers.</summary>
    static bool HangsOnSafety(ServedEdition edition, int index)
    {
        var fact = edition.Dialog.Facts[index];
        if (fact.AskIn != AskIn.Form && fact.AskIn <= AskIn.Safety)
            return true;
        foreach (var condition in fact.AppliesWhen)
        {
            if (condition.Of.IsNamedFact || HangsOnSafety(edition, condition.Of.Index))
                return true;
        }

        return false;
    }
}
