using System.Collections.Immutable;
using EarHelp.Content.Examples;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using NodaTime;

namespace EarHelp.Conversation.Tests.Examples;

/// <summary>One example patient who holds a conversation, by tapping or after a first message.</summary>
sealed class ExampleTalk(ServedEdition edition, ExampleRun run, Instant now)
{
    const int MostTurns = 120;

    ConversationState? _state;
    ImmutableArray<Reply> _replies = [];
    int _turns;

    /// <summary>Questions that had to be answered, a read-back among them.</summary>
    public int Questions { get; private set; }

    /// <summary>Those of them that hold a fact which is always asked.</summary>
    public int AlwaysAsked { get; private set; }

    public OutcomeTold? Told { get; private set; }

    public ExampleTalk Hold(string? message)
    {
        Take(message is null ? new TurnContent.Begin("en") : new TurnContent.Typed(message), null);
        while (_state!.Pending is { } pending && _turns < MostTurns)
        {
            Questions++;
            AlwaysAsked += pending.Question.Facts.Any(f => edition.MustBeAsked[edition.Dialog.FindFact(f.Fact)!.Index]) ? 1 : 0;
            Take(pending.ReadBack.IsEmpty ? Answer(pending.Question) : Confirm(pending.ReadBack), pending.Question.Name);
        }

        return this;
    }

    void Take(TurnContent content, QuestionName? answers)
    {
        var stepped = Conversing.Step(edition, _state, new Turn($"t{++_turns}", answers, content), now);
        (_state, _replies) = (stepped.State, stepped.Replies);
        Told = _replies.OfType<Reply.Outcome>().LastOrDefault()?.Told ?? Told;
    }

    TurnContent.Chosen Answer(Question question) =>
        new([.. question.Facts.Select(f => AnswerTo(f, question.Name.Ear))], NoneOfThese: false);

    ChosenAnswer AnswerTo(AskedFact asked, Ear? ear)
    {
        var fact = edition.Dialog.FindFact(asked.Fact)!;
        var set = Known(fact, ear);
        var written = set is null ? Clear(fact, asked) : WrittenValue.Of(fact, set);
        if (fact.Values is FactValues.Named && !asked.Options.Any(o => o.Value == written))
            written = set is { } some && asked.Options.FirstOrDefault(o => o.Value.Split(", ").Contains(some.Only is { } only ? fact.Values.NameOf(only) : string.Empty)) is { } option ? option.Value : null;
        return new ChosenAnswer(asked.Fact, written, written is null);
    }

    static string Clear(Fact fact, AskedFact asked) =>
        fact is { Clear: { } clear, Counted: null } ? fact.Values.NameOf(clear) : asked.Options.IsEmpty ? "1" : asked.Options[0].Value;

    /// <summary>Right is what the patient would have answered.</summary>
    TurnContent.Chosen Confirm(ImmutableArray<ReadBack> understood) =>
        new([.. understood.Where(IsRight).Select(u => new ChosenAnswer(u.Fact, u.Value, NotSure: false))], NoneOfThese: false);

    bool IsRight(ReadBack read)
    {
        var fact = edition.Dialog.FindFact(read.Fact)!;
        if (Known(fact, read.Ear) is not { } set)
            return fact.Clear is { } clear && fact.Values.NameOf(clear) == read.Value;
        if (fact.Counted is null)
            return WrittenValue.Of(fact, set) == read.Value;
        var days = Period.DaysBetween(NodaTime.Text.LocalDatePattern.Iso.Parse(read.Value).Value, now.InZone(edition.Edition.Clinic.Zone).Date);
        return fact.Values.NameOf(set.Least) == days.ToString(System.Globalization.CultureInfo.InvariantCulture);
    }

    ValueSet? Known(Fact fact, Ear? ear)
    {
        var of = run.Ears.FirstOrDefault(e => ear is null or Ear.Either || e.Ear == ear) ?? run.Ears[0];
        return of.OfFact[fact.Index] is Answer.Asked { MayBe: var set } && (set.Only is not null || fact.Values is FactValues.Numbers) ? set : null;
    }
}
