using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Understanding.Readings;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>Takes what was typed freely. Text may raise a concern by itself, never lower one.</summary>
sealed class Typing(Draft draft)
{
    /// <summary>The screen of a question that reads back what was understood.</summary>
    public const string ReadBackScreen = "read back";

    /// <summary>Letters read of one message; a limit of the machine, not a clinical one.</summary>
    public const int LongestText = 4000;

    readonly ServedEdition _edition = draft.Edition;

    public void Take(string text, bool isNew)
    {
        var isTooLong = text.Length > LongestText;
        var read = isTooLong ? text[..LongestText] : text;
        var today = draft.Now.InZone(_edition.Edition.Clinic.Zone).Date;
        draft.Country = CountriesNamed.In(_edition.Edition, read) is { IsEmpty: false } named ? named is [var only] ? only : null : draft.Country;
        var lexicon = _edition.LexiconOf(draft.Language);
        var reading = Reader.Read(lexicon, read, Asked(), today);
        var isStale = draft.Turn.Answers is { } name && name != draft.Pending?.Question.Name;
        var plain = isStale ? null : reading.Plain;
        var isConcern = TakeSignposts(reading) | TakeClaims(reading, plain);
        if (isStale)
            draft.Replies.Add(Sayings.Stale(draft.Turn.Answers, draft.Turn.Content));
        if (isTooLong)
            draft.Replies.Add(Sayings.TextTooLong(LongestText));
        if (plain is null && !isStale && !isTooLong && _edition.TopicsOf(draft.Language).Find(read) is { } topic)
            draft.About = topic;
        if (isConcern)
            GoOnToConcern();
        else if (plain is not null && draft.Pending is { } pending)
            Choosing.TakeAnswers(draft, pending, Chosen(plain));
        else if (!isStale && draft.Pending is { ReadBack: { IsEmpty: false } understood } && Reader.ReadYesNo(lexicon, read) is { } isRight)
            TakeReadBack(understood, isRight);
        else if (ReadBackOf(reading, read) is { IsEmpty: false } readBack)
            Confirm(readBack);
        else if (draft.About is { } about)
            Changing.TakeAskAbout(draft, about);
        else if (isStale || isTooLong || isNew)
            draft.AskAgain();
        else
            SayNotUnderstood(read);
    }

    AskedNow? Asked() => draft.Pending is { ReadBack.IsEmpty: true, Question: var question }
        ? new AskedNow(
            question.Name.Screen,
            [.. question.Facts.Select(f => _edition.FactIndex(f.Fact)!.Value)],
            question.Kind == QuestionKind.Checklist)
        : null;

    TurnContent.Chosen Chosen(PlainAnswer plain) =>
        new([.. plain.Choices.Select(c => new ChosenAnswer(_edition.Dialog.Facts[c.Fact].Id, c.Written, c.NotSure))], plain.NoneOfThese);

    /// <summary>An emergency phrase shows its text at once; one that is denied still leads to the direct question.</summary>
    bool TakeSignposts(Reading reading)
    {
        var isConcern = false;
        foreach (var seen in reading.Signposts)
        {
            var signpost = _edition.Edition.Wordings[draft.Language].Signposts[seen.Signpost];
            var isAsked = false;
            foreach (var claim in signpost.Claims)
                isAsked |= !claim.Of.IsNamedFact && Concerns.AskFirst(draft, claim.Of.Index, null, claim.Values);
            var alarm = new Reply.Alarm(signpost.Id, null);
            if ((seen.Certainty != Certainty.Denied || !isAsked) && !draft.Replies.Contains(alarm))
                draft.Replies.Add(alarm);
            isConcern = true;
        }

        return isConcern;
    }

    /// <summary>A danger sign affirmed in passing. The value that plainly answers the open question is taken as its answer instead.</summary>
    bool TakeClaims(Reading reading, PlainAnswer? plain)
    {
        var isConcern = false;
        foreach (var claim in reading.Claims)
        {
            if (claim.Certainty != Certainty.Denied && _edition.IsRedFlag(claim.Fact) && !IsAnsweredBy(plain, claim.Fact))
                isConcern |= Concerns.Raise(draft, claim.Fact, null, claim.Values);
        }

        return isConcern && plain is null;
    }

    static bool IsAnsweredBy(PlainAnswer? plain, int fact)
    {
        if (plain is null)
            return false;
        foreach (var choice in plain.Choices)
        {
            if (choice.Fact == fact)
                return true;
        }

        return false;
    }

    /// <summary>After an outcome a mentioned sign is the same as saying that something has changed.</summary>
    void GoOnToConcern()
    {
        draft.NotUnderstood = 0;
        if (draft.Told is not null && draft.Pending is null && !draft.Raised.IsEmpty)
        {
            Changing.TakeSomethingChanged(draft);
            return;
        }

        if (!draft.Raised.IsEmpty)
            draft.Say("heard in text");
        draft.Pending = draft.Raised.IsEmpty ? draft.Pending : null;
        draft.AskAgain();
    }

    void TakeReadBack(ImmutableArray<ReadBack> understood, bool isRight)
    {
        var answers = isRight ? understood.Select(u => new ChosenAnswer(u.Fact, u.Value, NotSure: false)) : [];
        Choosing.TakeConfirmed(draft, understood, new TurnContent.Chosen([.. answers], NoneOfThese: false));
    }

    void Confirm(ImmutableArray<ReadBack> readBack)
    {
        draft.NotUnderstood = 0;
        var name = new QuestionName(ReadBackScreen, null, 1, draft.Number);
        draft.Pending = new Pending(new Question(name, [], QuestionKind.Form), IsChange: false, readBack);
        draft.Replies.Add(new Reply.Confirm(name, readBack));
    }

    /// <summary>What may become an answer once it is confirmed: one value of an unanswered fact that need not be asked directly.</summary>
    ImmutableArray<ReadBack> ReadBackOf(Reading reading, string text)
    {
        if (draft.Told is not null && draft.Pending is null)
            return [];
        var found = ImmutableArray.CreateBuilder<ReadBack>();
        foreach (var claim in reading.Claims)
        {
            var isOnly = !reading.Claims.Any(o => o.Fact == claim.Fact && o.Written != claim.Written);
            if (claim.Certainty == Certainty.Denied || _edition.MustBeAsked[claim.Fact] || !isOnly)
                continue;
            Ear? ear = _edition.IsOfEar(claim.Fact) ? draft.Ears() is [var only] and not [Ear.Either] ? only : Ear.Either : null;
            var of = draft.Place(claim.Fact, ear);
            if (ear == Ear.Either || draft.Find(of) is not null || found.Any(f => f.Fact == _edition.Dialog.Facts[claim.Fact].Id))
                continue;
            found.Add(new ReadBack(_edition.Dialog.Facts[claim.Fact].Id, ear, claim.Written, text.Substring(claim.Span.Start, claim.Span.Length)));
        }

        return found.ToImmutable();
    }

    void SayNotUnderstood(string text)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            draft.Say("text empty");
        }
        else
        {
            draft.NotUnderstood++;
            draft.Replies.Add(Sayings.NotUnderstood(draft.NotUnderstood));
        }

        draft.AskAgain();
    }
}
