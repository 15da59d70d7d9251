using System.Diagnostics;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Conversation.Withdrawing;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>The conversation as a pure function: an edition, a state, a turn and a moment give the next state and the replies.</summary>
public static class Conversing
{
    /// <param name="state">Null for a new conversation, which a turn of any kind may open.</param>
    /// <param name="withdrawn">What is not told at this moment; null: all is.</param>
    public static Stepped Step(ServedEdition edition, ConversationState? state, Turn turn, Instant now, Withdrawals? withdrawn = null)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(turn);
        var isNew = state is null;
        state ??= ConversationState.Begin(edition.Edition.Id, edition.DefaultLanguage);
        var draft = new Draft(edition, state, turn, now, withdrawn ?? Withdrawals.None);
        if (isNew)
            Open(draft, turn.Content);
        draft.Alarming = Alarms.AnswersThatLedToNow(draft);
        if (state.IsMoved)
            draft.Say(Withholding.CorrectedKey);
        Take(draft, turn.Content, isNew);
        if (state.IsMoved && draft.Pending is null && !draft.Replies.Exists(r => r is Reply.Outcome))
            new NextStep(draft).Take();
        Alarms.KeepInSight(draft);
        return draft.Finish();
    }

    /// <summary>What chosen answers lead to by themselves, whatever was asked: for the moment when no conversation can be read.</summary>
    internal static Stepped StepAsIfAsked(ServedEdition edition, TurnContent.Chosen chosen, Ear? ear, Instant now)
    {
        var state = ConversationState.Begin(edition.Edition.Id, edition.DefaultLanguage);
        var draft = new Draft(edition, state, new Turn(string.Empty, null, chosen), now, Withdrawals.None);
        foreach (var answer in chosen.Answers)
        {
            if (answer is not { Value: { } value } || edition.FactIndex(answer.Fact) is not { } fact)
                continue;
            if (new AnswerReader(edition, now).Read(fact, edition.AskedIn(draft.Language, fact), value).Said is { } said)
                draft.Put(draft.Place(fact, ear), said);
        }

        new NextStep(draft).Take();
        return draft.Finish();
    }

    static void Open(Draft draft, TurnContent content)
    {
        draft.Say("greeting");
        if (content is not TurnContent.Begin { Recorded: { IsDefaultOrEmpty: false } recorded })
            return;
        draft.Record(recorded);
        draft.SayRecorded();
    }

    static void Take(Draft draft, TurnContent content, bool isNew)
    {
        switch (content)
        {
            case TurnContent.Begin begin:
                draft.Language = draft.Edition.LanguageOr(begin.Language);
                draft.AskAgain();
                break;
            case TurnContent.Chosen chosen:
                Choosing.Take(draft, chosen);
                break;
            case TurnContent.Typed typed:
                new Typing(draft).Take(typed.Text, isNew);
                break;
            case TurnContent.Change change:
                Changing.TakeChange(draft, change);
                break;
            case TurnContent.SomethingChanged:
                Changing.TakeSomethingChanged(draft);
                break;
            case TurnContent.StartOver:
                Changing.TakeStartOver(draft);
                break;
            case TurnContent.AskForLink:
                draft.Say("return link");
                break;
            case TurnContent.AskAbout about:
                Changing.TakeAskAbout(draft, about.Answer);
                break;
            case TurnContent.GoOn:
                draft.AskAgain();
                break;
            case TurnContent.ShareWords share:
                draft.SharesWords = share.IsAllowed;
                draft.Say(share.IsAllowed ? Sayings.WordsShared : "share words taken back");
                draft.AskAgain();
                break;
            case TurnContent.RecordedAnew anew:
                Changing.TakeRecordedAnew(draft, anew);
                break;
            case TurnContent.CameBack:
                draft.Say("restored");
                break;
            default:
                throw new UnreachableException();
        }
    }
}
