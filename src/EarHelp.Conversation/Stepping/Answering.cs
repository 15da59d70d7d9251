using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>Answers what a person asked about, once all that the answer needs has been asked and nothing forbids it.</summary>
sealed class Answering(Draft draft, ImmutableArray<EarAnswers> views)
{
    readonly ServedEdition _edition = draft.Edition;

    /// <summary>What has to be asked first; null if nothing has, or if nothing was asked about.</summary>
    public ScreenToAsk? AskFirst()
    {
        if (Page is not { } page)
            return null;
        foreach (var fact in page.Needs)
        {
            foreach (var view in views)
            {
                if (view.OfFact[fact] is not Answer.NotAsked)
                    continue;
                if (_edition.IsOfEar(fact) && view.Ear == Ear.Either && _edition.EarsAffected is { } which && draft.Find(new FactOfEar(which, null)) is null)
                    return QuestionMaker.Together(_edition.ScreenOf[which], null, [which]);
                return OfScreen(page, view, fact);
            }
        }

        return null;
    }

    /// <summary>Tells the answer, or that it is not for this person. Only to be called when nothing has to be asked first.</summary>
    /// <returns>True if it was told.</returns>
    public bool Tell()
    {
        var page = Page;
        draft.About = null;
        if (page is null)
            return false;
        if (IsForbidden(page))
        {
            draft.Say("answer not for you");
            return false;
        }

        draft.Replies.Add(new Reply.Answered(new PageTold(page.Id, IsOutOfDate(page), IsOutOfDate(page) ? [] : Advice(page))));
        return true;
    }

    AnswerPage? Page => draft.About is { } about ? _edition.Edition.Wordings[draft.Language].Answers.GetValueOrDefault(about) : null;

    /// <summary>With the fact, what else of its screen is needed or still matters: so that no screen comes twice.</summary>
    ScreenToAsk OfScreen(AnswerPage page, EarAnswers view, int fact)
    {
        var screen = _edition.ScreenOf[fact];
        Ear? ear = _edition.IsOfEar(fact) ? view.Ear : null;
        var open = _edition.Decide(views).Assessment.Open;
        ImmutableArray<int> facts =
        [
            .. screen.Facts.Where(f => view.OfFact[f] is Answer.NotAsked
                && (page.Needs.Contains(f) || open.Any(o => o.Fact == f && (ear is null || o.Ear == ear)))),
        ];
        return QuestionMaker.Together(screen, ear, facts);
    }

    bool IsForbidden(AnswerPage page)
    {
        foreach (var view in views)
        {
            foreach (var never in page.NeverIf)
            {
                if (Holds.Of(_edition.Dialog, never, view.OfFact.AsSpan()) != Truth.No)
                    return true;
            }
        }

        return false;
    }

    bool IsOutOfDate(AnswerPage page)
    {
        var clinic = _edition.Edition.Clinic;
        return draft.Now.InZone(clinic.Zone).Date > page.Review.ReviewBy.PlusDays(clinic.ReviewGraceDays);
    }

    /// <summary>An item is told only if the plan of this person would show it.</summary>
    ImmutableArray<AdviceTold> Advice(AnswerPage page)
    {
        var given = new OutcomeTelling(draft, views).Tell().Advice;
        return [.. page.Advice.SelectMany(item => given.Where(a => a.Id == _edition.Dialog.Advice[item].Id))];
    }
}
