using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>Makes the outcome of an assessment: by when, where, what until then, and why.</summary>
sealed class OutcomeTelling
{
    readonly Draft _draft;
    readonly ServedEdition _edition;
    readonly ImmutableArray<EarAnswers> _views;
    readonly Assessment _said;
    readonly OutcomeTold? _floor;

    public OutcomeTelling(Draft draft, ImmutableArray<EarAnswers> views)
    {
        (_draft, _edition, _views) = (draft, draft.Edition, views);
        _said = _edition.Decide(views).Assessment;
        var assessed = _said.Level ?? _said.AtMost;
        _floor = draft.Floor is { } floor && floor.Rank < assessed ? floor : null;
        Rank = _floor?.Rank ?? assessed;
    }

    public int Rank { get; }

    /// <summary>True if the outcome that was told before is more urgent than what is answered now, and stays.</summary>
    public bool IsFloored => _floor is not null;

    public OutcomeTold Tell()
    {
        var level = _edition.Dialog.Levels[Rank];
        var seenBy = SeenBy();
        var (destinations, isTooLate) = Places(seenBy);
        var reasons = new ReasonTelling(_draft, _views);
        return new OutcomeTold(
            level.Id,
            Rank,
            level.Iso,
            seenBy,
            AnswerBy(seenBy),
            _draft.Now,
            seenBy < _draft.Now,
            destinations,
            isTooLate,
            MayTreat(),
            _floor is { Hold: { } hold } ? hold : _said.MayTreat?.Hold,
            Advice(),
            With(_floor?.Warnings, _said.Warnings),
            With(_floor?.Explanations, [.. _said.Explanations.Select(e => _edition.Dialog.Explanations[e].Id)]),
            With(_floor?.Reasons, reasons.Of(_said.Rules, isDeciding: _floor is null)),
            reasons.Answers(),
            _said.AtLeast == 0);
    }

    /// <summary>
    /// The earliest end of the limits of this level and of every less urgent one, each from the turn that first reached it, or from the
    /// date that the row names: so that a deadline never moves later when a level rises.
    /// </summary>
    Instant? SeenBy()
    {
        var earliest = _draft.Floor is { } floor && floor.Rank >= Rank ? floor.SeenBy : null;
        if (_floor is not null)
            earliest = _floor.SeenBy;
        var zone = _edition.Edition.Clinic.Zone;
        for (var rank = Rank; rank < _edition.Dialog.Levels.Length; rank++)
        {
            if (_edition.Dialog.Levels[rank].Within is not { } within || FirstReached(rank) is not { } at)
                continue;
            if (rank == Rank && CountsFrom() is { } named && named < at)
                at = named;
            var end = Deadline.After(at, within, zone);
            if (earliest is null || end < earliest)
                earliest = end;
        }

        return _edition.Dialog.Levels[Rank].Within is null ? null : earliest;
    }

    Instant? FirstReached(int rank)
    {
        Instant? first = null;
        foreach (var reached in _draft.Reached)
        {
            if (reached.Rank <= rank && (first is null || reached.At < first))
                first = reached.At;
        }

        return first ?? (rank == Rank ? _draft.Now : null);
    }

    /// <summary>The earliest moment of the date from which the deciding row counts; null if none is known.</summary>
    Instant? CountsFrom()
    {
        if (_said.CountsFrom is not { } fact)
            return null;
        Instant? earliest = null;
        foreach (var view in _views)
        {
            Instant? from = _draft.Find(_draft.Place(fact, view.Ear)) switch
            {
                Said.Days days => _edition.Edition.Clinic.Zone.AtStartOfDay(days.From).ToInstant(),
                Said.Moments moments => moments.From,
                _ => null,
            };
            if (from is { } found && (earliest is null || found < earliest))
                earliest = found;
        }

        return earliest;
    }

    /// <summary>Half of the time that is left: the other half is for the next place to go. Never later than was told before.</summary>
    Instant? AnswerBy(Instant? seenBy)
    {
        if (seenBy is not { } limit)
            return null;
        var answerBy = limit > _draft.Now ? _draft.Now + ((limit - _draft.Now) / 2) : limit;
        return _draft.Told is { AnswerBy: { } before } told && told.Rank >= Rank && before < answerBy ? before : answerBy;
    }

    (ImmutableArray<DestinationTold> Places, bool ClinicIsTooLate) Places(Instant? seenBy)
    {
        ImmutableArray<int> places = _floor is null
            ? _said.Destinations
            : [.. _floor.Destinations.Select(d => _edition.Dialog.Destinations.First(k => k.Id == d.Id).Index)];
        var told = ImmutableArray.CreateBuilder<DestinationTold>(places.Length);
        var isTooLate = _floor is { ClinicIsTooLate: true };
        foreach (var index in places)
        {
            var place = _edition.Dialog.Destinations[index];
            if (place.Hours != DestinationHours.Clinic || seenBy is not { } limit)
                told.Add(new DestinationTold(place.Id, null));
            else if (_edition.Calendar.FirstVisitBefore(_draft.Now, limit) is { } visit)
                told.Add(new DestinationTold(place.Id, visit));
            else
                isTooLate = true;
        }

        return (told.ToImmutable(), isTooLate);
    }

    bool? MayTreat()
    {
        if (_floor is { MayTreat: false })
            return false;
        return _said.MayTreat is { } treat ? treat.Hold is null : null;
    }

    /// <summary>Under a floor nothing is given that its level forbids, and what was to be left alone stays so.</summary>
    ImmutableArray<AdviceTold> Advice()
    {
        var advice = ImmutableArray.CreateBuilder<AdviceTold>();
        foreach (var given in _said.Advice)
        {
            var item = _edition.Dialog.Advice[given.Item];
            if (_floor is null || given.Kind != AdviceKind.ToDo || item.NotWhile is not { } rank || _floor.Rank > rank)
                advice.Add(new AdviceTold(item.Id, KindOf(given.Kind), given.Ear));
        }

        foreach (var before in _floor?.Advice ?? [])
        {
            if (before.Kind != AdviceTold.ToDo && !advice.Contains(before))
                advice.Add(before);
        }

        return advice.ToImmutable();
    }

    static string KindOf(AdviceKind kind) => kind switch
    {
        AdviceKind.ToDo => AdviceTold.ToDo,
        AdviceKind.LeaveAlone => AdviceTold.LeaveAlone,
        AdviceKind.GetHelp => AdviceTold.GetHelp,
        AdviceKind.Protect => AdviceTold.Protect,
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    static ImmutableArray<T> With<T>(ImmutableArray<T>? before, ImmutableArray<T> now) =>
        before is { IsEmpty: false } some ? [.. some, .. now.Where(n => !some.Contains(n))] : now;
}
