using System.Collections.Immutable;
using System.Diagnostics;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Readings;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>Decides one turn: reads what came in, then asks the next question or tells the outcome.</summary>
sealed class OneTurn(ServedEdition edition, ConversationState state, Turn turn, Instant now)
{
    const string ReadBackScreen = "read back";
    const int PersonAfter = 3;

    readonly ImmutableArray<Reply>.Builder _replies = ImmutableArray.CreateBuilder<Reply>();
    ConversationState _state = state;

    public Stepped Take()
    {
        switch (turn.Content)
        {
            case TurnContent.Begin:
                Say("greeting");
                AskNext();
                break;
            case TurnContent.StartOver:
                _state = ConversationState.Begin(_state.EditionId, _state.Language) with { Number = _state.Number };
                Say("started over");
                AskNext();
                break;
            case TurnContent.AskForLink:
                Say("return link");
                break;
            case TurnContent.Change change:
                TakeChange(change);
                break;
            case TurnContent.SomethingChanged:
                TakeSomethingChanged();
                break;
            case TurnContent.Chosen chosen:
                TakeChosen(chosen);
                break;
            case TurnContent.Typed typed:
                TakeTyped(typed.Text);
                break;
            default:
                throw new UnreachableException();
        }

        return new Stepped(_state, _replies.ToImmutable());
    }

    void TakeChange(TurnContent.Change change)
    {
        var wasEmergency = IsMostUrgent();
        if (QuestionMaker.Again(edition, _state, change.Screen, change.Ear, wasEmergency ? 2 : 1, _state.Number) is not { } question)
        {
            AskAgain();
            return;
        }

        if (wasEmergency)
        {
            _replies.Add(new Reply.Alarm(null, edition.Dialog.Levels[0].Id));
            Say("emergency stays");
        }

        Ask(question, isChange: true);
    }

    void TakeSomethingChanged()
    {
        if (_state.Told is not { } told)
        {
            AskAgain();
            return;
        }

        var signs = _state.Answers.Where(a => edition.Dialog.Facts[a.Of.Fact] is { AskIn: AskIn.Safety, RedFlag: RedFlag.Marked }).ToArray();
        _state = _state with { Floor = told, Pending = null, Answers = _state.Answers.RemoveRange(signs), SecondWordingDue = [] };
        AskNext();
    }

    void TakeChosen(TurnContent.Chosen chosen)
    {
        if (_state.Pending is not { } pending || turn.Answers != pending.Question.Name)
        {
            TakeStale(chosen);
            return;
        }

        if (!pending.ReadBack.IsEmpty)
        {
            var confirmed = pending.ReadBack.Where(r => chosen.Answers.Any(a => a.Fact == r.Fact && a.Value == r.Value)).ToArray();
            _state = _state with { Pending = null };
            foreach (var read in confirmed)
                Keep(new FactOfEar(edition.Dialog.FindFact(read.Fact)!.Index, read.Ear), new ChosenAnswer(read.Fact, read.Value, false), isSecond: false);
            Understood();
            AskNext();
            return;
        }

        TakeAnswers(pending, chosen);
    }

    /// <summary>An answer to an older question is kept, shown and asked again; never applied to another one.</summary>
    void TakeStale(TurnContent.Chosen chosen)
    {
        if (turn.Answers is { } older)
        {
            var answers = chosen.Answers.Where(a => a.Value is not null && edition.Dialog.FindFact(a.Fact) is not null)
                .Select(a => new Blank("answer", $"answer:{a.Fact}{EarMark(older.Ear)}={a.Value}"));
            _replies.Add(new Reply.Say("stale answer", [new Blank("question", $"screen:{older.Screen}{EarMark(older.Ear)}"), .. answers]));
        }

        AskAgain();
    }

    void TakeAnswers(Pending pending, TurnContent.Chosen chosen)
    {
        var question = pending.Question;
        var isSecond = question.Name.Wording > 1;
        var given = chosen.Answers.Where(a => a.NotSure || !string.IsNullOrWhiteSpace(a.Value)).ToImmutableArray();
        if (Fault(question, given, chosen.NoneOfThese) is { } fault)
        {
            _replies.Add(fault);
            AskAgain();
            return;
        }

        var kept = true;
        foreach (var asked in question.Facts)
        {
            var answer = given.FirstOrDefault(a => string.Equals(a.Fact, asked.Fact, StringComparison.Ordinal));
            if (answer is null && question.Kind == QuestionKind.Checklist)
                answer = new ChosenAnswer(asked.Fact, "no", false);
            if (answer is not null)
            {
                var fact = edition.Dialog.FindFact(asked.Fact)!;
                kept &= Keep(new FactOfEar(fact.Index, fact.About == About.Ear ? question.Name.Ear : null), answer, isSecond && !pending.IsChange);
            }
            else if (question.Kind == QuestionKind.Form)
            {
                kept = false;
                Say("nothing chosen");
            }
        }

        if (!kept && question.Kind == QuestionKind.OneFact)
        {
            AskAgain();
            return;
        }

        _state = _state with { Pending = null };
        Understood();
        if (pending.IsChange)
            TellDropped();
        AskNext();
    }

    static Reply.Say? Fault(Question question, ImmutableArray<ChosenAnswer> given, bool none)
    {
        var known = given.Where(g => question.Facts.Any(f => string.Equals(f.Fact, g.Fact, StringComparison.Ordinal))).ToArray();
        if (question.Kind == QuestionKind.Checklist && none && known.Length > 0)
            return new Reply.Say("none and others", []);
        if (known.GroupBy(k => k.Fact, StringComparer.Ordinal).Any(g => g.Count() > 1))
            return new Reply.Say("yes and unsure", []);
        return known.Length == 0 && !(none && question.Kind == QuestionKind.Checklist) ? new Reply.Say("nothing chosen", []) : null;
    }

    /// <summary>Keeps one answer; false (with a reply) if it cannot be read.</summary>
    bool Keep(FactOfEar of, ChosenAnswer answer, bool isSecond)
    {
        var fact = edition.Dialog.Facts[of.Fact];
        var (said, fault) = AnswerReader.Read(edition, fact, answer, now);
        if (said is null)
        {
            _replies.Add(fault!);
            return false;
        }

        var earlier = _state.Answers.Find(of);
        if (said is Said.NotSure && fact.RedFlag is RedFlag.Marked && !isSecond && earlier is null)
        {
            _state = _state with { SecondWordingDue = _state.SecondWordingDue.Remove(of).Add(of), Raised = _state.Raised.Remove(of) };
            return true;
        }

        var changesEmergency = earlier is not null && !earlier.Equals(said) && IsMostUrgent();
        var answers = _state.Answers.ToList();
        AnswerList.Put(answers, of, said);
        _state = _state with
        {
            FirstAnswerAt = _state.FirstAnswerAt ?? now,
            Answers = [.. answers],
            SecondWordingDue = _state.SecondWordingDue.Remove(of),
            Raised = _state.Raised.Remove(of),
            Doubted = _state.Doubted.Remove(of),
            Earlier = changesEmergency ? _state.Earlier.Add(new GivenAnswer(of, earlier!)) : _state.Earlier,
        };
        return true;
    }

    void TellDropped()
    {
        var (kept, dropped) = Dependants.Drop(edition, _state, now);
        _state = kept;
        if (dropped.IsEmpty)
            Say("nothing dropped");
        else
            _replies.Add(new Reply.Say("answers dropped", [.. dropped.Select(d => new Blank("list", $"fact:{edition.Dialog.Facts[d.Fact].Id}{EarMark(d.Ear)}"))]));
    }

    void TakeTyped(string text)
    {
        var asked = _state.Pending is { ReadBack.IsEmpty: true } pending
            ? new AskedNow(
                pending.Question.Name.Screen,
                [.. pending.Question.Facts.Select(f => edition.Dialog.FindFact(f.Fact)!.Index)],
                pending.Question.Kind == QuestionKind.Checklist)
            : null;
        var reading = Reader.Read(edition.LexiconOf(_state.Language), text, asked, now.InZone(edition.Edition.Clinic.Zone).Date);
        var raised = TakeConcerns(reading);
        var isStale = turn.Answers is not null && turn.Answers != _state.Pending?.Question.Name;
        if (!raised && !isStale && reading.Plain is { } plain && _state.Pending is { } open)
        {
            var chosen = new TurnContent.Chosen(
                [.. plain.Choices.Select(c => new ChosenAnswer(edition.Dialog.Facts[c.Fact].Id, c.Written, c.NotSure))],
                plain.NoneOfThese);
            TakeAnswers(open, chosen);
            return;
        }

        var readBack = ReadBackOf(reading, text);
        if (!readBack.IsEmpty && _state.Pending is { } waiting)
        {
            Understood();
            var name = new QuestionName(ReadBackScreen, null, 1, _state.Number);
            _state = _state with { Pending = new Pending(waiting.Question with { Name = name }, waiting.IsChange, readBack) };
            _replies.Add(new Reply.Confirm(name, readBack));
            return;
        }

        if (raised)
        {
            Understood();
            AskNext();
            return;
        }

        _state = _state with { NotUnderstood = _state.NotUnderstood + 1 };
        Say($"not understood {Math.Min(_state.NotUnderstood, PersonAfter)}");
        AskAgain();
    }

    /// <summary>Text may raise a concern by itself, never lower one: any mention of a danger sign leads to the direct question.</summary>
    bool TakeConcerns(Reading reading)
    {
        var raised = false;
        foreach (var seen in reading.Signposts.DistinctBy(s => s.Signpost))
        {
            var signpost = edition.Edition.Wordings[_state.Language].Signposts[seen.Signpost];
            if (seen.Certainty != Certainty.Denied)
                _replies.Add(new Reply.Alarm(signpost.Id, null));
            foreach (var claim in signpost.Claims.Where(c => !c.Of.IsNamedFact))
                Raise(claim.Of.Index);
            raised = true;
        }

        foreach (var claim in reading.Claims.Where(c => edition.Dialog.Facts[c.Fact].RedFlag is RedFlag.Marked && !IsClear(c)).DistinctBy(c => c.Fact))
        {
            if (IsPending(claim.Fact) && reading.Plain is not null)
                continue;
            if (claim.Certainty != Certainty.Denied && AlarmOf(claim) is { } alarm && !_replies.Contains(alarm))
                _replies.Add(alarm);
            raised |= Raise(claim.Fact);
        }

        return raised;
    }

    bool IsClear(Claim claim) => edition.Dialog.Facts[claim.Fact].Clear is { } clear && claim.Values.Only == clear;

    bool IsPending(int fact) =>
        _state.Pending?.Question.Facts.Any(f => string.Equals(f.Fact, edition.Dialog.Facts[fact].Id, StringComparison.Ordinal)) == true;

    /// <summary>Has the fact asked first, unless it was answered.</summary>
    bool Raise(int fact)
    {
        var isOfEar = edition.Dialog.Facts[fact].About == About.Ear;
        var any = false;
        foreach (var ear in AnswerView.EarsOf(edition.Dialog, _state))
        {
            var of = new FactOfEar(fact, isOfEar ? ear : null);
            if (_state.Answers.Find(of) is null && !_state.Raised.Contains(of))
            {
                _state = _state with { Raised = _state.Raised.Add(of) };
                any = true;
            }
        }

        return any;
    }

    /// <summary>The text of the level to which the sign alone would lead, if it leads anywhere.</summary>
    Reply.Alarm? AlarmOf(Claim claim)
    {
        var alone = ConversationState.Begin(_state.EditionId, _state.Language) with
        {
            Answers = [new GivenAnswer(new FactOfEar(claim.Fact, edition.Dialog.Facts[claim.Fact].About == About.Ear ? Triage.Answers.Ear.Either : null), new Said.Values(claim.Values))],
        };
        var (_, atLeast) = edition.Assessor.BoundsOf(AnswerView.Of(edition, alone, now));
        var least = edition.Dialog.Levels.Length - 1;
        return atLeast < least && edition.Dialog.Levels[atLeast].Within is not null ? new Reply.Alarm(null, edition.Dialog.Levels[atLeast].Id) : null;
    }

    ImmutableArray<ReadBack> ReadBackOf(Reading reading, string text)
    {
        var ears = AnswerView.EarsOf(edition.Dialog, _state);
        var forbidding = edition.Dialog.Advice.SelectMany(a => a.NeverIf).Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index).ToHashSet();
        return
        [
            .. reading.Claims
                .Where(c => c.Certainty != Certainty.Denied
                    && edition.Dialog.Facts[c.Fact] is { RedFlag: not RedFlag.Marked }
                    && !forbidding.Contains(c.Fact))
                .DistinctBy(c => c.Fact)
                .SelectMany(c => OfEars(c, ears)),
        ];

        IEnumerable<ReadBack> OfEars(Claim claim, ImmutableArray<Triage.Answers.Ear> which)
        {
            var fact = edition.Dialog.Facts[claim.Fact];
            var words = text.Substring(claim.Span.Start, claim.Span.Length);
            IEnumerable<Triage.Answers.Ear?> places = fact.About == About.Ear ? which.Cast<Triage.Answers.Ear?>() : [null];
            return places
                .Where(e => _state.Answers.Find(new FactOfEar(claim.Fact, e)) is null)
                .Select(e => new ReadBack(fact.Id, e, claim.Written, words));
        }
    }

    void Understood() => _state = _state with { NotUnderstood = 0 };

    bool IsMostUrgent() => _state.Reached.Any(r => r.Rank == 0) && _state.Answers.Length > 0
        && edition.Assessor.BoundsOf(AnswerView.Of(edition, _state, now)).AtLeast == 0;

    void AskNext()
    {
        var (next, replies) = new NextStep(edition, _state, now).Decide();
        _state = next;
        _replies.AddRange(replies);
    }

    /// <summary>The open question once more; its older name stays unusable.</summary>
    void AskAgain()
    {
        if (_state.Pending is not { } pending)
        {
            AskNext();
            return;
        }

        if (!pending.ReadBack.IsEmpty)
        {
            _state = _state with { Pending = null };
            AskNext();
            return;
        }

        Ask(pending.Question with { Name = pending.Question.Name with { AskedInTurn = _state.Number } }, pending.IsChange);
    }

    void Ask(Question question, bool isChange)
    {
        _state = _state with { Pending = new Pending(question, isChange, []) };
        _replies.Add(new Reply.Ask(question));
    }

    void Say(string text) => _replies.Add(new Reply.Say(text, []));

    static string EarMark(Triage.Answers.Ear? ear) => ear is null ? string.Empty : "@" + ear.Value.ToString().ToLowerInvariant();
}
