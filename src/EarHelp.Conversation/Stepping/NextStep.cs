using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;

namespace EarHelp.Conversation.Stepping;

/// <summary>What follows from all answers: a raised sign, a second wording, the next screen, or the outcome.</summary>
sealed class NextStep(Draft draft)
{
    readonly ServedEdition _edition = draft.Edition;

    public void Take()
    {
        ReadingBack.Settle(draft);
        var views = Disagreement.Resolve(draft);
        var atLeast = _edition.Decide(views).AtLeast;
        NoteReached(atLeast);
        if (atLeast == 0 && draft.Answers.Length > 0)
            Tell(views);
        else if (AskRaised(views) || AskSecondWording(ref views) || AskDoubted() || ReadingBack.Ask(draft))
            return;
        else
            GoOn(views);
    }

    /// <summary>What was asked about comes first, as soon as all that it needs is known; an outcome that it does not change is not told again.</summary>
    void GoOn(ImmutableArray<EarAnswers> views)
    {
        var answering = new Answering(draft, views);
        if (answering.AskFirst() is { } first)
        {
            Ask(first, 1);
            return;
        }

        var isAnswered = answering.Tell();
        if (_edition.Decide(views).Next is { } screen)
            Ask(screen, 1);
        else if (!isAnswered || !IsToldAlready(views))
            Tell(views);
    }

    bool IsToldAlready(ImmutableArray<EarAnswers> views)
    {
        if (draft.Told is not { } before)
            return false;
        var now = new OutcomeTelling(draft, views).Tell();
        draft.Pending = null;
        return before.Level == now.Level && before.Hold == now.Hold && before.Advice.SequenceEqual(now.Advice)
            && before.Warnings.SequenceEqual(now.Warnings) && before.Destinations.SequenceEqual(now.Destinations);
    }

    /// <summary>Only what is more urgent than before is noted: so each level has the first moment from which it, or worse, was certain.</summary>
    void NoteReached(int rank)
    {
        if (draft.FirstAnswerAt is not null && (draft.Reached.IsEmpty || rank < draft.Reached[0].Rank))
            draft.Reached = draft.Reached.Insert(0, new LevelReached(rank, draft.Now));
    }

    /// <summary>A sign that was mentioned comes before everything; before it only what decides whether it applies, or which ear it is.</summary>
    bool AskRaised(ImmutableArray<EarAnswers> views)
    {
        while (!draft.Raised.IsEmpty)
        {
            var of = draft.Raised[0];
            if (of.Ear == Ear.Either && _edition.EarsAffected is { } which)
            {
                var ears = draft.Ears();
                if (ears is not [Ear.Either])
                {
                    draft.Raised = draft.Raised.RemoveAt(0).InsertRange(0, ears.Select(e => new FactOfEar(of.Fact, e)).Where(e => draft.Find(e) is null && !draft.Raised.Contains(e)));
                    continue;
                }

                if (draft.Find(new FactOfEar(which, null)) is null)
                {
                    AskFacts(new FactOfEar(which, null), 1, [which]);
                    return true;
                }
            }

            var view = views.FirstOrDefault(v => of.Ear is null || v.Ear == of.Ear);
            if (view is null || view.OfFact[of.Fact] is Answer.NotApplicable || (!_edition.IsRedFlag(of.Fact) && !IsOpen(of)))
            {
                draft.Raised = draft.Raised.RemoveAt(0);
                continue;
            }

            var first = FirstUnasked(view, of.Fact);
            AskFacts(of with { Fact = first }, 1, WithItsScreen(view, of with { Fact = first }));
            return true;
        }

        return false;
    }

    /// <summary>While the text of an emergency is shown, only the signs that were mentioned; else with them what is open on their screen, so that it comes once.</summary>
    ImmutableArray<int> WithItsScreen(EarAnswers view, FactOfEar of)
    {
        if (Concerns.IsEmergency(draft))
            return draft.Raised.Contains(of) ? Sharing(draft.Raised, of) : [of.Fact];
        return
        [
            .. _edition.ScreenOf[of.Fact].Facts.Where(f => f == of.Fact || draft.Raised.Contains(of with { Fact = f })
                || (view.OfFact[f] is Answer.NotAsked && IsOpen(of with { Fact = f }))),
        ];
    }

    /// <summary>True while an answer to it may still change something.</summary>
    bool IsOpen(FactOfEar of) =>
        _edition.Decide(draft.View()).Assessment.Open.Any(o => o.Fact == of.Fact && (of.Ear is null || o.Ear == of.Ear));

    /// <summary>The fact itself, or the first fact on which it depends that was not asked.</summary>
    int FirstUnasked(EarAnswers view, int fact)
    {
        foreach (var condition in _edition.Dialog.Facts[fact].AppliesWhen)
        {
            if (!condition.Of.IsNamedFact && view.OfFact[condition.Of.Index] is Answer.NotAsked)
                return FirstUnasked(view, condition.Of.Index);
        }

        return fact;
    }

    /// <summary>Danger signs that got a first "not sure" are asked in other words, if they still matter; else they are unsure.</summary>
    bool AskSecondWording(ref ImmutableArray<EarAnswers> views)
    {
        if (draft.SecondWordingDue.IsEmpty)
            return false;
        var open = _edition.Decide(views).Assessment.Open;
        foreach (var of in draft.SecondWordingDue)
        {
            if (!open.Any(o => o.Fact == of.Fact && (of.Ear is null || o.Ear == of.Ear)))
                draft.Put(of, Said.Unsure);
        }

        if (draft.SecondWordingDue.IsEmpty)
        {
            views = draft.View();
            return false;
        }

        var first = draft.SecondWordingDue[0];
        AskFacts(first, 2, Sharing(draft.SecondWordingDue, first));
        return true;
    }

    bool AskDoubted()
    {
        if (draft.Doubted.IsEmpty)
            return false;
        var first = draft.Doubted[0];
        AskFacts(first, 1, Sharing(draft.Doubted, first));
        return true;
    }

    /// <summary>Those of the facts that share the first one's screen and ear.</summary>
    ImmutableArray<int> Sharing(ImmutableArray<FactOfEar> facts, FactOfEar first)
    {
        var screen = _edition.ScreenOf[first.Fact];
        return [.. screen.Facts.Where(f => facts.Contains(first with { Fact = f }))];
    }

    void AskFacts(FactOfEar first, int wording, ImmutableArray<int> facts)
    {
        var ear = _edition.IsOfEar(first.Fact) ? first.Ear : null;
        Ask(QuestionMaker.Together(_edition.ScreenOf[first.Fact], ear, facts), wording);
    }

    void Ask(ScreenToAsk screen, int wording) =>
        draft.Ask(QuestionMaker.Of(_edition, draft.Language, screen, wording, draft.Number), isChange: false);

    void Tell(ImmutableArray<EarAnswers> views)
    {
        var telling = new OutcomeTelling(draft, views);
        var told = telling.Tell();
        draft.Pending = null;
        draft.IsWithheld = draft.Withdrawn.Withholds(told);
        if (draft.IsWithheld)
        {
            draft.Replies.Add(Withholding.Outcome(draft));
            return;
        }

        draft.Told = told;
        draft.Raised = [];
        draft.Heard = [];
        draft.SecondWordingDue = [];
        if (telling.IsFloored)
            draft.Say("plan stays");
        draft.Replies.Add(new Reply.Outcome(told));
    }
}
