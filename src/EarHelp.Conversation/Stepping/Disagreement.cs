using System.Collections.Immutable;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Rules;

namespace EarHelp.Conversation.Stepping;

/// <summary>Answers that cannot stand together: both count as "not sure" until it is told which is right.</summary>
static class Disagreement
{
    /// <summary>The answers as they count now. Says which two disagree, if that is new.</summary>
    public static ImmutableArray<EarAnswers> Resolve(Draft draft)
    {
        if (draft.Edition.Dialog.Impossible.IsEmpty)
            return draft.View();
        if (!draft.Doubted.IsEmpty)
        {
            var trusted = draft.View([]);
            if (FindPair(draft, trusted, Truth.Yes) is null && IsPossible(draft, trusted))
            {
                draft.Doubted = [];
                return trusted;
            }
        }

        var views = draft.View();
        while (FindPair(draft, views, Truth.Yes) is { } pair && Doubt(draft, views, pair))
            views = draft.View();
        while (!IsPossible(draft, views) && FindPair(draft, views, Truth.Perhaps) is { } perhaps && Doubt(draft, views, perhaps))
            views = draft.View();
        return views;
    }

    /// <summary>One pair alone rules out all combinations only if both its conditions are certain; several together may.</summary>
    static bool IsPossible(Draft draft, ImmutableArray<EarAnswers> views)
    {
        var dialog = draft.Edition.Dialog;
        foreach (var view in views)
        {
            var near = 0;
            foreach (var pair in dialog.Impossible)
            {
                if (Holds.Of(dialog, pair.One, view.OfFact.AsSpan()) != Truth.No && Holds.Of(dialog, pair.Other, view.OfFact.AsSpan()) != Truth.No
                    && Facts(draft, view, pair.One).Count > 0 && Facts(draft, view, pair.Other).Count > 0)
                    near++;
            }

            if (near > 1)
                return draft.Edition.Decide(views).Assessment.IsPossible;
        }

        return true;
    }

    static (ImpossiblePair Pair, EarAnswers View)? FindPair(Draft draft, ImmutableArray<EarAnswers> views, Truth least)
    {
        var dialog = draft.Edition.Dialog;
        foreach (var view in views)
        {
            foreach (var pair in dialog.Impossible)
            {
                var answers = view.OfFact.AsSpan();
                if (Holds.Of(dialog, pair.One, answers) >= least && Holds.Of(dialog, pair.Other, answers) >= least
                    && (least == Truth.Yes || HasUndoubted(draft, view, pair)))
                    return (pair, view);
            }
        }

        return null;
    }

    static bool HasUndoubted(Draft draft, EarAnswers view, ImpossiblePair pair) =>
        Facts(draft, view, pair.One).Concat(Facts(draft, view, pair.Other)).Any(f => !draft.Doubted.Contains(f));

    /// <returns>False if there was nothing left to doubt.</returns>
    static bool Doubt(Draft draft, ImmutableArray<EarAnswers> views, (ImpossiblePair Pair, EarAnswers View) found)
    {
        var one = Facts(draft, found.View, found.Pair.One);
        var other = Facts(draft, found.View, found.Pair.Other);
        var before = draft.Doubted.Length;
        if (one.Count > 0 && other.Count > 0)
            draft.Replies.Add(Sayings.Disagree(Told(draft, one[0]), Told(draft, other[0])));
        foreach (var of in one.Concat(other))
        {
            if (!draft.Doubted.Contains(of))
                draft.Doubted = draft.Doubted.Add(of);
        }

        return draft.Doubted.Length > before;
    }

    static List<FactOfEar> Facts(Draft draft, EarAnswers view, Condition condition)
    {
        var facts = new List<int>();
        Holds.CollectFacts(draft.Edition.Dialog, condition, view.OfFact.AsSpan(), facts);
        return [.. facts.Select(f => draft.Place(f, view.Ear)).Where(of => draft.Find(of) is not null)];
    }

    static string Told(Draft draft, FactOfEar of)
    {
        var fact = draft.Edition.Dialog.Facts[of.Fact];
        return Sayings.Answer(fact.Id, of.Ear, Written.Of(fact, draft.Find(of)!));
    }
}
