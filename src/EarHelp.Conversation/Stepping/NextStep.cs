using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>What follows from all answers: a second wording, a raised sign, the next screen, or the outcome.</summary>
sealed class NextStep(ServedEdition edition, ConversationState state, Instant now)
{
    public (ConversationState State, ImmutableArray<Reply> Replies) Decide()
    {
        var views = AnswerView.Of(edition, state, now);
        var (_, atLeast) = edition.Assessor.BoundsOf(views);
        var next = WithReached(state, atLeast);
        if (atLeast == 0 && !state.Answers.IsEmpty)
            return Outcome(next, views);
        if (Disagreeing(views) is { } pair)
            return AskWhichIsRight(next, pair);
        if (SecondWording() is { } second)
            return Ask(next, second, 2);
        var screen = Raised() ?? edition.Assessor.NextScreen(views);
        return screen is null ? Outcome(next, views) : Ask(next, screen, 1);
    }

    ConversationState WithReached(ConversationState of, int rank) =>
        of.Answers.IsEmpty || of.Reached.Any(r => r.Rank <= rank)
            ? of
            : of with { Reached = of.Reached.Insert(0, new LevelReached(rank, now)) };

    /// <summary>The facts that got a first "not sure" and share the first screen of these.</summary>
    ScreenToAsk? SecondWording() => Together(state.SecondWordingDue);

    /// <summary>A danger sign that was typed is asked first, once the form is done.</summary>
    ScreenToAsk? Raised() =>
        edition.Dialog.Facts.Any(f => f.AskIn == AskIn.Form && state.Answers.Find(new FactOfEar(f.Index, null)) is null) ? null : Together(state.Raised);

    ScreenToAsk? Together(ImmutableArray<FactOfEar> facts)
    {
        if (facts.IsEmpty)
            return null;
        var first = facts[0];
        var screen = edition.Dialog.Screens.First(s => s.Facts.Contains(first.Fact));
        ImmutableArray<int> asked = [.. screen.Facts.Where(f => facts.Contains(new FactOfEar(f, first.Ear)))];
        return new ScreenToAsk(screen.Id, screen.IsChecklist ? QuestionKind.Checklist : QuestionKind.OneFact, first.Ear, asked);
    }

    /// <summary>The first two answers that cannot stand together, with the reason.</summary>
    (FactOfEar One, FactOfEar Other, string Because)? Disagreeing(ImmutableArray<EarAnswers> views)
    {
        foreach (var view in views)
        {
            foreach (var pair in edition.Dialog.Impossible.Where(p => !p.One.Of.IsNamedFact && !p.Other.Of.IsNamedFact))
            {
                if (IsCertain(view, pair.One) && IsCertain(view, pair.Other))
                    return (OfEar(pair.One.Of.Index, view.Ear), OfEar(pair.Other.Of.Index, view.Ear), pair.Because);
            }
        }

        return null;
    }

    static bool IsCertain(EarAnswers view, Triage.Rules.Condition condition) =>
        view.OfFact[condition.Of.Index] is Answer.Asked asked && asked.MayBe.IsSubsetOf(condition.Values);

    FactOfEar OfEar(int fact, Ear ear) => new(fact, edition.Dialog.Facts[fact].About == About.Ear ? ear : null);

    (ConversationState State, ImmutableArray<Reply> Replies) AskWhichIsRight(ConversationState of, (FactOfEar One, FactOfEar Other, string Because) pair)
    {
        var doubted = of with { Doubted = of.Doubted.Add(pair.One).Add(pair.Other) };
        var say = new Reply.Say("answers disagree", [AnswerBlank(of, "first", pair.One), AnswerBlank(of, "second", pair.Other)]);
        var screen = edition.Dialog.Screens.First(s => s.Facts.Contains(pair.Other.Fact));
        var question = QuestionMaker.Again(edition, doubted, screen.Id, pair.Other.Ear, 1, of.Number);
        return question is null
            ? (doubted, [say])
            : (doubted with { Pending = new Pending(question, true, []) }, [say, new Reply.Ask(question)]);
    }

    Blank AnswerBlank(ConversationState of, string name, FactOfEar fact)
    {
        var ear = fact.Ear is null ? string.Empty : "@" + fact.Ear.Value.ToString().ToLowerInvariant();
        return new Blank(name, $"answer:{edition.Dialog.Facts[fact.Fact].Id}{ear}={SaidWords.Of(edition, edition.Dialog.Facts[fact.Fact], of.Answers.Find(fact)!) ?? AnswerTold.Unsure}");
    }

    (ConversationState State, ImmutableArray<Reply> Replies) Ask(ConversationState of, ScreenToAsk screen, int wording)
    {
        var question = QuestionMaker.Of(edition, of.Language, screen, wording, of.Number);
        return (of with { Pending = new Pending(question, false, []) }, [new Reply.Ask(question)]);
    }

    (ConversationState State, ImmutableArray<Reply> Replies) Outcome(ConversationState of, ImmutableArray<EarAnswers> views)
    {
        var told = new OutcomeTelling(edition, of, views, now).Tell();
        return (of with { Pending = null, Told = told, SecondWordingDue = [], Raised = [] }, [new Reply.Outcome(told)]);
    }
}
