using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Facts;

namespace EarHelp.Conversation.Stepping;

/// <summary>Says why, by the rows that matched and the answers that made them match, and lists all answers for the clinician.</summary>
sealed class ReasonTelling(Draft draft, ImmutableArray<EarAnswers> views)
{
    readonly ServedEdition _edition = draft.Edition;

    /// <param name="isDeciding">False if an outcome that was told before decides.</param>
    public ImmutableArray<ReasonTold> Of(ImmutableArray<MatchedRule> rules, bool isDeciding)
    {
        var told = ImmutableArray.CreateBuilder<ReasonTold>(rules.Length);
        var facts = new List<int>();
        foreach (var matched in rules)
        {
            var rule = _edition.Dialog.Rules[matched.Rule];
            var view = ViewOf(matched.Ear);
            facts.Clear();
            foreach (var condition in rule.Conditions)
                Holds.CollectFacts(_edition.Dialog, condition, view.OfFact.AsSpan(), facts);
            facts.Sort();
            var blanks = ImmutableArray.CreateBuilder<Blank>(facts.Count);
            var isOfEar = false;
            foreach (var fact in facts)
            {
                isOfEar |= _edition.IsOfEar(fact);
                if (draft.FindCounted(draft.Place(fact, view.Ear)) is { } said)
                    blanks.Add(new Blank(_edition.Dialog.Facts[fact].Id, Write(fact, said)));
            }

            told.Add(new ReasonTold(rule.Id, isOfEar ? matched.Ear : null, matched.Decides && isDeciding, blanks.ToImmutable()));
        }

        return told.ToImmutable();
    }

    /// <summary>Danger signs that are not clear come first, then changed ones, then the others in the order of asking.</summary>
    public ImmutableArray<AnswerTold> Answers()
    {
        var told = ImmutableArray.CreateBuilder<AnswerTold>(draft.Answers.Length);
        foreach (var isFirst in (ReadOnlySpan<bool>)[true, false])
        {
            foreach (var (of, said, isRecorded) in Counted())
            {
                if (IsSign(of.Fact, said) == isFirst)
                    told.Add(new AnswerTold(_edition.Dialog.Facts[of.Fact].Id, of.Ear, Written.Of(_edition.Dialog.Facts[of.Fact], said), EarlierOf(of), isFirst) { IsRecorded = isRecorded });
            }

            if (isFirst)
                AddUnanswered(told);
        }

        return told.ToImmutable();
    }

    /// <summary>What was said, and what a clinician recorded and nobody was asked, each once.</summary>
    List<(FactOfEar Of, Said Said, bool IsRecorded)> Counted()
    {
        var counted = new List<(FactOfEar, Said, bool)>(draft.Answers.Length + draft.Recorded.Length);
        foreach (var (of, _) in draft.Answers)
            counted.Add((of, draft.FindCounted(of)!, draft.Recorded.Find(of) is not null));
        foreach (var of in draft.Recorded.Select(r => r.Of).Distinct())
        {
            if (draft.Find(of) is null)
                counted.Add((of, draft.FindCounted(of)!, true));
        }

        return counted;
    }

    /// <summary>Signs that wait for their second wording are not sure; an earlier answer that was dropped is told all the same.</summary>
    void AddUnanswered(ImmutableArray<AnswerTold>.Builder told)
    {
        foreach (var of in draft.SecondWordingDue)
            told.Add(new AnswerTold(_edition.Dialog.Facts[of.Fact].Id, of.Ear, null, EarlierOf(of), true));
        foreach (var earlier in draft.Earlier)
        {
            if (draft.Find(earlier.Of) is null && !draft.SecondWordingDue.Contains(earlier.Of))
                told.Add(new AnswerTold(_edition.Dialog.Facts[earlier.Of.Fact].Id, earlier.Of.Ear, AnswerTold.NotAnswered, EarlierOf(earlier.Of), true));
        }
    }

    bool IsSign(int fact, Said said) =>
        _edition.IsRedFlag(fact)
        && !(_edition.Dialog.Facts[fact].Clear is { } clear && said is Said.Values { Set: { } set } && set.Only == clear);

    string? EarlierOf(FactOfEar of)
    {
        foreach (var earlier in draft.Earlier)
        {
            if (earlier.Of == of && draft.Find(of)?.Equals(earlier.Said) != true)
                return Write(of.Fact, earlier.Said);
        }

        return null;
    }

    string Write(int fact, Said said) => Written.Of(_edition.Dialog.Facts[fact], said) ?? AnswerTold.Unsure;

    EarAnswers ViewOf(Ear ear)
    {
        foreach (var view in views)
        {
            if (view.Ear == ear)
                return view;
        }

        return views[0];
    }
}
