using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;

namespace EarHelp.Conversation.Stepping;

/// <summary>Takes what was chosen, or typed into the fields of a question.</summary>
static class Choosing
{
    public static void Take(Draft draft, TurnContent.Chosen chosen)
    {
        if (draft.Pending is not { } pending || draft.Turn.Answers != pending.Question.Name)
            TakeStale(draft, chosen);
        else if (!pending.ReadBack.IsEmpty)
            TakeConfirmed(draft, pending.ReadBack, chosen);
        else
            TakeAnswers(draft, pending, chosen);
    }

    /// <summary>Keeps each answer that can be read, says what is wrong with the others, and goes on.</summary>
    public static void TakeAnswers(Draft draft, Pending pending, TurnContent.Chosen chosen)
    {
        if (WrongAsAWhole(pending.Question, chosen) is { } wrong)
        {
            draft.Replies.Add(wrong);
            draft.AskAgain();
            return;
        }

        var isRestNo = IsRestNo(pending.Question, chosen);
        var isAnyKept = false;
        var isAnyMissing = false;
        foreach (var asked in pending.Question.Facts)
        {
            var answer = AnswerOf(chosen, asked.Fact) ?? (isRestNo ? new ChosenAnswer(asked.Fact, "no", NotSure: false) : null);
            if (answer is null)
                isAnyMissing = true;
            else
                isAnyKept |= Keep(draft, pending, asked, answer);
        }

        if (isAnyMissing && pending.Question.Kind == QuestionKind.Form)
            draft.Replies.Add(Sayings.NothingChosen);
        if (!isAnyKept)
        {
            draft.AskAgain();
            return;
        }

        draft.NotUnderstood = 0;
        draft.Pending = null;
        TellDropped(draft, pending.IsChange);
        new NextStep(draft).Take();
    }

    /// <summary>Drops what no longer applies, and says so.</summary>
    static void TellDropped(Draft draft, bool isChange)
    {
        var dropped = Dependants.Drop(draft);
        if (dropped.Count > 0)
            draft.Replies.Add(Sayings.Listing("answers dropped", draft.Edition.Dialog, dropped));
        else if (isChange)
            draft.Say("nothing dropped");
        if (isChange && !draft.Earlier.IsEmpty)
            draft.Say("emergency stays");
    }

    /// <summary>An answer to an older question is shown and never applied; a danger sign in it shows its text, and is asked next.</summary>
    static void TakeStale(Draft draft, TurnContent.Chosen chosen)
    {
        draft.Replies.Add(Sayings.Stale(draft.Turn.Answers, chosen));
        var isRaised = false;
        foreach (var answer in chosen.Answers)
        {
            if (answer is not { Value: { } value, NotSure: false } || draft.Edition.FactIndex(answer.Fact) is not { } fact || !draft.Edition.IsRedFlag(fact))
                continue;
            var (said, _) = new AnswerReader(draft.Edition, draft.Now).Read(fact, draft.Edition.AskedIn(draft.Language, fact), value);
            if (said is Said.Values { Set: var set })
                isRaised |= Concerns.Raise(draft, fact, draft.Turn.Answers?.Ear, set);
        }

        if (isRaised && draft.Pending is null)
            Changing.TakeSomethingChanged(draft);
        else
            draft.AskAgain();
    }

    /// <summary>What was read back, and which of it is right.</summary>
    public static void TakeConfirmed(Draft draft, ImmutableArray<ReadBack> understood, TurnContent.Chosen chosen)
    {
        ReadingBack.Take(draft, understood, chosen);
        ReadingBack.Settle(draft);
        TellDropped(draft, isChange: false);
        new NextStep(draft).Take();
    }

    static Reply.Say? WrongAsAWhole(Question question, TurnContent.Chosen chosen)
    {
        var isAnyGiven = false;
        var isAnyYes = false;
        foreach (var asked in question.Facts)
        {
            ChosenAnswer? only = null;
            foreach (var answer in chosen.Answers)
            {
                if (!IsOf(answer, asked.Fact))
                    continue;
                if (only is not null && only != answer)
                    return Sayings.Plain("yes and unsure");
                only = answer;
            }

            isAnyGiven |= only is not null;
            isAnyYes |= only is { Value: "yes" };
            if (only is { NotSure: true, Value: not null })
                return Sayings.Plain("yes and unsure");
        }

        var isNone = chosen.NoneOfThese && question.Kind == QuestionKind.Checklist;
        if (isNone && isAnyYes)
            return Sayings.Plain("none and others");
        return isAnyGiven || isNone ? null : Sayings.NothingChosen;
    }

    /// <summary>On a checklist what is left alone is "no", once something was ticked, or none of it.</summary>
    static bool IsRestNo(Question question, TurnContent.Chosen chosen)
    {
        if (question.Kind != QuestionKind.Checklist)
            return false;
        if (chosen.NoneOfThese)
            return true;
        foreach (var answer in chosen.Answers)
        {
            if (answer.NotSure || answer.Value is "yes")
                return true;
        }

        return false;
    }

    static bool Keep(Draft draft, Pending pending, AskedFact asked, ChosenAnswer answer)
    {
        var fact = draft.Edition.FactIndex(asked.Fact)!.Value;
        var of = draft.Place(fact, pending.Question.Name.Ear);
        if (!answer.NotSure)
        {
            var (said, fault) = new AnswerReader(draft.Edition, draft.Now).Read(fact, asked, answer.Value!.Trim());
            if (said is null)
                draft.Replies.Add(fault!);
            else
                draft.Put(of, said);
            return said is not null;
        }

        if (!asked.OffersNotSure)
        {
            draft.Replies.Add(Sayings.NothingChosen);
            return false;
        }

        if (!draft.Edition.IsRedFlag(fact) || pending.Question.Name.Wording > 1)
        {
            draft.Put(of, Said.Unsure);
            return true;
        }

        draft.FirstAnswerAt ??= draft.Now;
        draft.Remove(of);
        draft.Raised = draft.Raised.Remove(of);
        if (!draft.SecondWordingDue.Contains(of))
            draft.SecondWordingDue = draft.SecondWordingDue.Add(of);
        return true;
    }

    static ChosenAnswer? AnswerOf(TurnContent.Chosen chosen, string fact)
    {
        foreach (var answer in chosen.Answers)
        {
            if (IsOf(answer, fact))
                return answer;
        }

        return null;
    }

    static bool IsOf(ChosenAnswer answer, string fact) =>
        string.Equals(answer.Fact, fact, StringComparison.Ordinal) && (answer.NotSure || !string.IsNullOrWhiteSpace(answer.Value));
}
