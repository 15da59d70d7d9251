using System.Collections.Immutable;
using System.Runtime.InteropServices;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Conversation.Withdrawing;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>A state while one turn is decided, and the replies so far. It lives for one turn only.</summary>
sealed class Draft(ServedEdition edition, ConversationState before, Turn turn, Instant now, Withdrawals withdrawn)
{
    readonly List<GivenAnswer> _answers = [.. before.Answers];
    ImmutableArray<FactOfEar> _doubted = before.Doubted;
    ImmutableArray<EarAnswers> _view;

    public ServedEdition Edition => edition;

    public Turn Turn => turn;

    public Instant Now => now;

    public Withdrawals Withdrawn => withdrawn;

    /// <summary>Number of this turn.</summary>
    public int Number => before.Number + 1;

    public string Language { get; set; } = before.Language;

    public Instant? FirstAnswerAt { get; set; } = before.FirstAnswerAt;

    /// <summary>Valid until an answer is put or removed.</summary>
    public ReadOnlySpan<GivenAnswer> Answers => CollectionsMarshal.AsSpan(_answers);

    public Pending? Pending { get; set; } = before.Pending;

    public ImmutableArray<FactOfEar> SecondWordingDue { get; set; } = before.SecondWordingDue;

    public ImmutableArray<FactOfEar> Raised { get; set; } = before.Raised;

    public ImmutableArray<FactOfEar> Doubted
    {
        get => _doubted;
        set
        {
            _doubted = value;
            _view = default;
        }
    }

    public ImmutableArray<LevelReached> Reached { get; set; } = before.Reached;

    public ImmutableArray<GivenAnswer> Earlier { get; set; } = before.Earlier;

    public int NotUnderstood { get; set; } = before.NotUnderstood;

    public OutcomeTold? Told { get; set; } = before.Told;

    public OutcomeTold? Floor { get; set; } = before.Floor;

    public string? About { get; set; } = before.About;

    public string? Country { get; set; } = before.Country;

    /// <summary>What a clinician recorded and what still counts at this moment.</summary>
    public ImmutableArray<RecordedValue> Recorded { get; private set; } = before.Recorded.RemoveAll(r => r.Until <= now);

    public int RecordVersion { get; private set; } = before.RecordVersion;

    public ImmutableArray<Heard> Heard { get; set; } = before.Heard;

    public bool? SharesWords { get; set; } = before.SharesWords;

    public bool IsWithheld { get; set; } = before.IsWithheld;

    public List<Reply> Replies { get; } = new(4);

    /// <summary>The answers that led to the most urgent level when the turn came in; empty if it was not reached.</summary>
    public ImmutableArray<FactOfEar> Alarming { get; set; } = [];

    /// <summary>The answers as they count now. Worked out once for each change of an answer.</summary>
    public ImmutableArray<EarAnswers> View()
    {
        if (_view.IsDefault)
            _view = View(Doubted);
        return _view;
    }

    public ImmutableArray<EarAnswers> View(ImmutableArray<FactOfEar> doubted) =>
        AnswerView.Of(edition, Answers, Recorded, doubted, FirstAnswerAt ?? now, now);

    public Said? Find(FactOfEar of) => AnswerView.Find(Answers, of);

    /// <summary>What counts of a fact: what was recorded and what was said; null if neither was.</summary>
    public Said? FindCounted(FactOfEar of) => Recorded.Find(of) is { } set ? RecordedValues.With(set, Find(of)) : Find(of);

    public ImmutableArray<Ear> Ears() => AnswerView.EarsOf(edition, Answers, Doubted);

    public FactOfEar Place(int fact, Ear? ear) => new(fact, edition.IsOfEar(fact) ? ear : null);

    /// <summary>Puts an answer in its place; one that had led to the most urgent level is kept beside the new one.</summary>
    public void Put(FactOfEar of, Said said)
    {
        var earlier = Find(of);
        if (earlier is not null && !earlier.Equals(said))
            KeepIfAlarming(of, earlier);
        FirstAnswerAt ??= now;
        AnswerList.Put(_answers, of, said);
        _view = default;
        SecondWordingDue = SecondWordingDue.Remove(of);
        Raised = Raised.Remove(of);
        Doubted = Doubted.Remove(of);
    }

    /// <summary>Takes over what a clinician recorded, as far as the edition knows it and it still counts.</summary>
    public void Record(ImmutableArray<RecordedFact> facts)
    {
        foreach (var recorded in facts)
        {
            if (edition.FactIndex(recorded.Fact) is { } fact && edition.Dialog.Facts[fact].Values.IndexOf(recorded.Value) is { } value && !(recorded.Until <= now))
                Recorded = Recorded.Add(new RecordedValue(new FactOfEar(fact, recorded.Ear), ValueSet.Of(value), recorded.Until));
        }

        _view = default;
    }

    /// <summary>What was recorded before counts no more.</summary>
    public void RecordAnew(int version, ImmutableArray<RecordedFact> facts)
    {
        RecordVersion = version;
        Recorded = [];
        Record(facts);
    }

    public void Remove(FactOfEar of)
    {
        for (var i = 0; i < _answers.Count; i++)
        {
            if (_answers[i].Of != of)
                continue;
            KeepIfAlarming(of, _answers[i].Said);
            _answers.RemoveAt(i);
            _view = default;
            Doubted = Doubted.Remove(of);
            return;
        }
    }

    /// <summary>Puts all answers away, as if nothing had been asked. What a clinician recorded stays.</summary>
    public void Forget()
    {
        _answers.Clear();
        _view = default;
        FirstAnswerAt = null;
        SecondWordingDue = [];
        Raised = [];
        Heard = [];
        SharesWords = null;
        Doubted = [];
        Reached = [];
        NotUnderstood = 0;
        Told = null;
        Floor = null;
        Country = null;
        Pending = null;
        About = null;
        IsWithheld = false;
    }

    public void Say(string key) => Replies.Add(Sayings.Plain(key));

    /// <summary>Names what was recorded, if anything that the edition asks about was.</summary>
    public void SayRecorded()
    {
        if (!Recorded.IsEmpty)
            Replies.Add(Sayings.Listing("known from the visit", edition.Dialog, Recorded.Select(r => r.Of).Distinct()));
    }

    /// <summary>Asks a question, which from now on waits for its answer.</summary>
    public void Ask(Question question, bool isChange)
    {
        Pending = new Pending(question, isChange, []);
        IsWithheld = false;
        Replies.Add(new Reply.Ask(question));
    }

    /// <summary>The open question once more, under this turn's number: its older name is not open any more.</summary>
    /// <param name="inOtherWords">True if it was not understood how it was put the first time.</param>
    public void AskAgain(bool inOtherWords = false)
    {
        if (Pending is not { ReadBack.IsEmpty: true } pending)
        {
            Pending = null;
            new NextStep(this).Take();
            return;
        }

        var name = pending.Question.Name with { AskedInTurn = Number };
        Ask(pending.Question with { Name = inOtherWords && name.Wording == 1 ? name with { Wording = 3 } : name }, pending.IsChange);
    }

    public Stepped Finish()
    {
        var state = new ConversationState(
            before.EditionId, Language, Number, string.Empty, FirstAnswerAt, [.. Answers], Pending, SecondWordingDue, Raised, Doubted,
            Reached, Earlier, NotUnderstood, Told, Floor, Country)
        {
            Recorded = Recorded,
            RecordVersion = RecordVersion,
            About = About,
            Heard = Heard,
            SharesWords = SharesWords,
            IsWithheld = IsWithheld,
        };
        return new Stepped(state, Withholding.Told(this));
    }

    void KeepIfAlarming(FactOfEar of, Said said)
    {
        if (!Alarming.Contains(of))
            return;
        foreach (var earlier in Earlier)
        {
            if (earlier.Of == of)
                return;
        }

        Earlier = Earlier.Add(new GivenAnswer(of, said));
    }
}
