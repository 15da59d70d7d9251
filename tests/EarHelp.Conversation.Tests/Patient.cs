using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using NodaTime;

namespace EarHelp.Conversation.Tests;

/// <summary>Somebody who holds a conversation: says what is given, and answers everything else with its clear value.</summary>
sealed class Patient
{
    readonly ServedEdition _edition;
    readonly Dictionary<string, string?> _story = new(StringComparer.Ordinal);
    int _turns;

    /// <param name="recorded">What a clinician recorded of a visit before.</param>
    public Patient(ServedEdition? edition = null, params ImmutableArray<RecordedFact> recorded)
    {
        _edition = edition ?? Some.Edition;
        Now = Some.Morning;
        Tell("about whom", "me").Tell("age", "45").Tell("where now", "near the clinic");
        Send(new TurnContent.Begin("en") { Recorded = recorded });
    }

    public Instant Now { get; set; }

    public ConversationState State { get; private set; } = null!;

    public ImmutableArray<Reply> Replies { get; private set; }

    /// <summary>Screens answered after the form, second wordings not counted.</summary>
    public int ScreensAfterForm { get; private set; }

    public Question? Asked => State.Pending?.Question;

    public OutcomeTold? Told => Replies.OfType<Reply.Outcome>().LastOrDefault()?.Told;

    public IEnumerable<string> Sayings => Replies.OfType<Reply.Say>().Select(s => s.Text);

    public IEnumerable<Reply.Alarm> Alarms => Replies.OfType<Reply.Alarm>();

    /// <summary>What will be answered when the fact is asked; null: not sure. Of one ear: <c>hearing@left</c>.</summary>
    public Patient Tell(string fact, string? value)
    {
        _story[fact] = value;
        return this;
    }

    public Patient Send(TurnContent content, QuestionName? answers = null)
    {
        if (_turns > 300)
            throw new InvalidOperationException($"This goes round in circles at {Asked}: {string.Join(", ", Sayings)}.");
        var id = string.Create(CultureInfo.InvariantCulture, $"t{++_turns}");
        var stepped = Conversing.Step(_edition, State, new Turn(id, answers, content), Now);
        (State, Replies) = (stepped.State, stepped.Replies);
        return this;
    }

    public Patient Type(string text) => Send(new TurnContent.Typed(text));

    /// <summary>Answers the open question.</summary>
    public Patient Answer()
    {
        var question = Asked ?? throw new InvalidOperationException("Nothing is asked.");
        if (question.Kind != QuestionKind.Form && question.Name.Wording == 1)
            ScreensAfterForm++;
        var answers = question.Facts.Select(f => AnswerTo(f, question)).ToImmutableArray();
        return Send(new TurnContent.Chosen(answers, NoneOfThese: false), question.Name);
    }

    /// <summary>Answers the open question in these words only.</summary>
    public Patient Choose(params ReadOnlySpan<(string Fact, string? Value)> given)
    {
        var answers = ImmutableArray.CreateBuilder<ChosenAnswer>();
        foreach (var (fact, value) in given)
            answers.Add(new ChosenAnswer(fact, value, value is null));
        return Send(new TurnContent.Chosen(answers.ToImmutable(), NoneOfThese: false), Asked!.Name);
    }

    /// <summary>Answers questions until one asks the fact.</summary>
    public Patient UntilAsked(string fact)
    {
        while (Asked is { } question && !question.Facts.Any(f => f.Fact == fact))
            Answer();
        return this;
    }

    public Patient ToTheEnd()
    {
        while (Asked is not null)
            Answer();
        return this;
    }

    ChosenAnswer AnswerTo(AskedFact asked, Question question)
    {
        var ear = question.Name.Ear switch
        {
            Ear.Left => "@left",
            Ear.Right => "@right",
            _ => string.Empty,
        };
        if (!_story.TryGetValue(asked.Fact + ear, out var value) && !_story.TryGetValue(asked.Fact, out value))
            value = Clear(asked);
        return new ChosenAnswer(asked.Fact, value, value is null);
    }

    string Clear(AskedFact asked)
    {
        var fact = _edition.Dialog.FindFact(asked.Fact)!;
        if (fact.Clear is { } clear && fact.Counted is null)
            return fact.Values.NameOf(clear);
        return asked.Options.IsEmpty ? "1" : asked.Options[0].Value;
    }
}
