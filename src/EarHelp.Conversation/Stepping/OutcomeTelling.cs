using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>Makes the outcome of an assessment: by when, where, what until then, and why.</summary>
sealed class OutcomeTelling(ServedEdition edition, ConversationState state, ImmutableArray<EarAnswers> views, Instant now)
{
    readonly Assessment _said = edition.Assessor.Assess(views);

    public OutcomeTold Tell()
    {
        var rank = _said.Level ?? _said.AtMost;
        var floor = state.Floor;
        if (floor is not null && floor.Rank < rank)
            rank = floor.Rank;
        var level = edition.Dialog.Levels[rank];
        var seenBy = SeenBy(level);
        if (floor?.SeenBy is { } earlier && (seenBy is null || earlier < seenBy))
            seenBy = earlier;
        var isFloored = floor is not null && rank < (_said.Level ?? _said.AtMost);
        var (destinations, clinicIsTooLate) = Places(isFloored ? PlacesOf(floor!) : _said.Destinations, seenBy);
        return new OutcomeTold(
            level.Id,
            rank,
            level.Iso,
            seenBy,
            seenBy is { } limit && limit > now ? now + ((limit - now) / 2) : seenBy,
            now,
            rank > 0 && seenBy < now,
            destinations,
            clinicIsTooLate,
            _said.MayTreat is { } treat ? treat.Hold is null : null,
            _said.MayTreat?.Hold,
            Advice(floor, isFloored),
            _said.Warnings,
            [.. _said.Explanations.Select(e => edition.Dialog.Explanations[e].Id)],
            [.. _said.Rules.Select(r => new ReasonTold(edition.Dialog.Rules[r.Rule].Id, EarOf(r), r.Decides, Blanks(r)))],
            Answers(),
            _said.AtLeast == 0 && !_said.Open.IsEmpty);
    }

    /// <summary>The limit runs from the turn that first reached the level, or from the date that the row names, whichever is earlier.</summary>
    Instant? SeenBy(Level level)
    {
        if (level.Within is null)
            return null;
        var from = state.Reached.Where(r => r.Rank <= level.Rank).Select(r => r.At).Append(now).Min();
        if (_said.CountsFrom is { } date && DateOf(date) is { } named && named < from)
            from = named;
        return Deadline.After(from, level.Within, edition.Edition.Clinic.Zone);
    }

    Instant? DateOf(int fact) => views
        .Select(v => state.Answers.Find(new FactOfEar(fact, edition.Dialog.Facts[fact].About == About.Ear ? v.Ear : null)))
        .Select(s => s switch
        {
            Said.Days days => edition.Edition.Clinic.Zone.AtStartOfDay(days.From).ToInstant(),
            Said.Moments moments => moments.From,
            _ => (Instant?)null,
        })
        .FirstOrDefault(i => i is not null);

    ImmutableArray<int> PlacesOf(OutcomeTold told) =>
        [.. told.Destinations.Select(d => edition.Dialog.Destinations.First(k => k.Id == d.Id).Index)];

    (ImmutableArray<DestinationTold> Places, bool ClinicIsTooLate) Places(ImmutableArray<int> places, Instant? seenBy)
    {
        var told = ImmutableArray.CreateBuilder<DestinationTold>();
        var isTooLate = false;
        foreach (var place in places.Select(p => edition.Dialog.Destinations[p]))
        {
            if (place.Hours != DestinationHours.Clinic || seenBy is not { } limit)
            {
                told.Add(new DestinationTold(place.Id, null));
                continue;
            }

            var visit = edition.Calendar.FirstVisitBefore(now, limit);
            if (visit is null)
                isTooLate = true;
            else
                told.Add(new DestinationTold(place.Id, visit));
        }

        return (told.ToImmutable(), isTooLate);
    }

    ImmutableArray<AdviceTold> Advice(OutcomeTold? floor, bool isFloored)
    {
        var advice = _said.Advice
            .Where(a => !isFloored || a.Kind != AdviceKind.ToDo || edition.Dialog.Advice[a.Item].NotWhile is not { } rank || floor!.Rank > rank)
            .Select(a => new AdviceTold(edition.Dialog.Advice[a.Item].Id, KindOf(a.Kind), a.Ear))
            .ToImmutableArray();
        return isFloored
            ? [.. advice.Union(floor!.Advice.Where(a => a.Kind != AdviceTold.ToDo))]
            : advice;
    }

    static string KindOf(AdviceKind kind) => kind switch
    {
        AdviceKind.ToDo => AdviceTold.ToDo,
        AdviceKind.LeaveAlone => AdviceTold.LeaveAlone,
        AdviceKind.GetHelp => AdviceTold.GetHelp,
        _ => AdviceTold.Protect,
    };

    Ear? EarOf(MatchedRule rule) => AskedFactsOf(edition.Dialog.Rules[rule.Rule].Conditions).Any(f => f.About == About.Ear) ? rule.Ear : null;

    /// <summary>The answers that made the row match.</summary>
    ImmutableArray<Blank> Blanks(MatchedRule rule)
    {
        var blanks = ImmutableArray.CreateBuilder<Blank>();
        var view = views.First(v => v.Ear == rule.Ear);
        foreach (var (fact, values) in ConditionsOf(edition.Dialog.Rules[rule.Rule].Conditions).DistinctBy(c => c.Fact.Index))
        {
            var of = new FactOfEar(fact.Index, fact.About == About.Ear ? rule.Ear : null);
            if (state.Answers.Find(of) is { } said && view.OfFact[fact.Index] is Answer.Asked asked && asked.MayBe.Overlaps(values))
                blanks.Add(new Blank(fact.Id, SaidWords.Of(edition, fact, said) ?? AnswerTold.Unsure));
        }

        return blanks.ToImmutable();
    }

    IEnumerable<(Fact Fact, ValueSet Values)> ConditionsOf(IEnumerable<Condition> conditions) =>
        conditions.SelectMany(c => c.Of.IsNamedFact
            ? ConditionsOf(edition.Dialog.NamedFacts[c.Of.Index].Rows.SelectMany(r => r.Conditions))
            : [(edition.Dialog.Facts[c.Of.Index], c.Values)]);

    IEnumerable<Fact> AskedFactsOf(IEnumerable<Condition> conditions) => ConditionsOf(conditions).Select(c => c.Fact);

    /// <summary>For the clinician: danger signs first, each with an earlier answer that had led to the most urgent level.</summary>
    ImmutableArray<AnswerTold> Answers() =>
    [
        .. state.Answers
            .Select(a => (a, Fact: edition.Dialog.Facts[a.Of.Fact]))
            .OrderByDescending(a => a.Fact.RedFlag is RedFlag.Marked && !IsClear(a.Fact, a.a.Said))
            .Select(a => new AnswerTold(
                a.Fact.Id,
                a.a.Of.Ear,
                SaidWords.Of(edition, a.Fact, a.a.Said),
                EarlierOf(a.a.Of, a.Fact),
                a.Fact.RedFlag is RedFlag.Marked && !IsClear(a.Fact, a.a.Said))),
    ];

    static bool IsClear(Fact fact, Said said) => fact.Clear is { } clear && said is Said.Values values && values.Set.Only == clear;

    string? EarlierOf(FactOfEar of, Fact fact)
    {
        foreach (var earlier in state.Earlier)
        {
            if (earlier.Of == of)
                return SaidWords.Of(edition, fact, earlier.Said) ?? AnswerTold.Unsure;
        }

        return null;
    }
}
