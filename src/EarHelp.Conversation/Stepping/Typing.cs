using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;
using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Readings;

namespace EarHelp.Conversation.Stepping;

/// <summary>Takes what was typed freely. Text may raise a concern by itself, never lower one.</summary>
sealed class Typing(Draft draft)
{
    /// <summary>Letters read of one message; a limit of the machine, not a clinical one.</summary>
    public const int LongestText = 4000;

    readonly ServedEdition _edition = draft.Edition;

    public void Take(string text, bool isNew)
    {
        var isTooLong = text.Length > LongestText;
        var read = isTooLong ? text[..LongestText] : text;
        var today = draft.Now.InZone(_edition.Edition.Clinic.Zone).Date;
        draft.Country = CountriesNamed.In(_edition.Edition, read) is { IsEmpty: false } named ? named is [var only] ? only : null : draft.Country;
        var book = _edition.PhrasesOf(draft.Language);
        var isStale = draft.Turn.Answers is { } name && name != draft.Pending?.Question.Name;
        var plain = isStale || Asked() is not { } asked ? null : ShortAnswers.Read(_edition.LexiconOf(draft.Language), read, asked, today);
        var hearing = new Hearing(draft, read, MessageReader.Read(book, read, today), plain);
        var isConcern = hearing.Raise();
        if (isStale)
            draft.Replies.Add(Sayings.Stale(draft.Turn.Answers, draft.Turn.Content));
        if (isTooLong)
            draft.Replies.Add(Sayings.TextTooLong(LongestText));
        if (plain is not null)
            Choosing.TakeAnswers(draft, draft.Pending!, Chosen(plain));
        else if (!isStale && !isConcern && draft.Pending is { ReadBack: { IsEmpty: false } understood } && Confirmed(understood, read) is { } confirmed)
            Choosing.TakeConfirmed(draft, understood, confirmed);
        else
            GoOn(hearing, TopicReader.Read(book, read) ?? AsQuestion(hearing, book, read), read, isConcern, isAnswered: isStale || isTooLong || isNew);
    }

    AskedNow? Asked() => draft.Pending is { ReadBack.IsEmpty: true, Question: var question }
        ? new AskedNow(
            question.Name.Screen,
            [.. question.Facts.Select(f => _edition.FactIndex(f.Fact)!.Value)],
            question.Kind == QuestionKind.Checklist)
        : null;

    TurnContent.Chosen Chosen(PlainAnswer plain) =>
        new([.. plain.Choices.Select(c => new ChosenAnswer(_edition.Dialog.Facts[c.Fact].Id, c.Written, c.NotSure))], plain.NoneOfThese);

    /// <summary>A yes, a no, or the number of what is shown: 1 all is right, 2 nothing is, from 3 on all is right but that one.</summary>
    TurnContent.Chosen? Confirmed(ImmutableArray<ReadBack> understood, string text)
    {
        var isNumber = int.TryParse(text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var number);
        if (isNumber ? number is < 1 || number > understood.Length + 2 : ShortAnswers.ReadYesNo(_edition.LexiconOf(draft.Language), text) is null)
            return null;
        var isRight = isNumber ? number != 2 : ShortAnswers.ReadYesNo(_edition.LexiconOf(draft.Language), text) == true;
        var right = isRight ? understood.Where((_, i) => number != i + 3).Select(u => new ChosenAnswer(u.Fact, u.Value, NotSure: false)) : [];
        return new TurnContent.Chosen([.. right], NoneOfThese: false);
    }

    /// <summary>A message that says nothing of any fact may be the name of an answer.</summary>
    static AskedTopics? AsQuestion(Hearing hearing, PhraseBook book, string text) =>
        hearing.IsNothing && TopicReader.Read(book, text, isQuestion: true) is { Found: not null } found ? found : null;

    /// <summary>An emergency is asked about first; else what was understood is read back first. A question waits for its answer beside both.</summary>
    void GoOn(Hearing hearing, AskedTopics? topics, string text, bool isConcern, bool isAnswered)
    {
        var told = draft.Replies.Count;
        draft.About = topics?.Found?.Id ?? draft.About;
        hearing.Keep();
        if (isConcern && draft.Told is not null && draft.Pending is null && !draft.Raised.IsEmpty)
            Changing.TakeSomethingChanged(draft);
        else if (!Concerns.IsEmergency(draft) && ReadingBack.Ask(draft))
            draft.NotUnderstood = 0;
        else if (isConcern)
            AskOfConcern();
        else if (topics?.Found is not null)
            Continue();
        else if (topics is not null || isAnswered)
            draft.AskAgain();
        else
            SayNotUnderstood(hearing, text);
        if (topics is { Found: not null } && draft.About is not null)
            draft.Replies.Insert(told, Sayings.Plain("answer follows"));
        else if (topics is { Found: null } && !Concerns.IsEmergency(draft))
            SayNotKnown(topics, told);
    }

    void SayNotKnown(AskedTopics topics, int told)
    {
        draft.Replies.Insert(told, new Reply.NotKnown([.. topics.Nearest.Select(t => t.Id)]));
        OfferToShare(told + 1);
    }

    /// <summary>Once in a conversation, and only where the clinic reads such words.</summary>
    void OfferToShare(int at)
    {
        if (draft.SharesWords is not null || _edition.Edition.Clinic.WordsKeptDays == 0)
            return;
        draft.SharesWords = false;
        draft.Replies.Insert(at, Sayings.Plain(Sayings.ShareWords));
    }

    void AskOfConcern()
    {
        if (!draft.Raised.IsEmpty)
        {
            draft.Say("heard in text");
            draft.Pending = null;
        }

        draft.NotUnderstood = 0;
        draft.AskAgain();
    }

    void Continue()
    {
        draft.NotUnderstood = 0;
        draft.Pending = null;
        new NextStep(draft).Take();
    }

    void SayNotUnderstood(Hearing hearing, string text)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            draft.Say("text empty");
            draft.AskAgain();
        }
        else if (ShortAnswers.ReadCourtesy(_edition.LexiconOf(draft.Language), text) is { } courtesy)
        {
            draft.Say(courtesy);
            draft.AskAgain();
        }
        else
        {
            if (hearing.Named.ToList() is { Count: > 0 } named)
                draft.Replies.Add(Sayings.Listing("understood already", _edition.Dialog, named));
            draft.NotUnderstood++;
            draft.Replies.Add(Sayings.NotUnderstood(draft.NotUnderstood));
            OfferToShare(draft.Replies.Count);
            draft.AskAgain(inOtherWords: true);
        }
    }
}
