using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Conversation.Withdrawing;
using NodaTime;

namespace EarHelp.Conversation.Tests;

/// <summary>A conversation on the clinic's own pages, with a clock that a test moves.</summary>
sealed class OneConversation
{
    static readonly Lazy<ServedEdition> Served = new(() =>
    {
        var compiled = EditionCompiler.Compile(SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!), CompileOptions.Plain);
        return new ServedEdition(compiled.Edition!, compiled.Assessor!);
    });

    int _turns;

    public static ServedEdition Edition => Served.Value;

    /// <summary>A Monday morning at the clinic.</summary>
    public Instant Now { get; set; } = Instant.FromUtc(2026, 11, 30, 9, 30);

    public Withdrawals Withdrawn { get; set; } = Withdrawals.None;

    public ConversationState? State { get; private set; }

    public ImmutableArray<Reply> Replies { get; private set; }

    public Question? Asked => State?.Pending?.Question;

    public OutcomeTold? Told => Replies.OfType<Reply.Outcome>().LastOrDefault()?.Told;

    public OneConversation Begin()
    {
        Take(new TurnContent.Begin("en"), null);
        return this;
    }

    public void Take(TurnContent content, QuestionName? question)
    {
        var stepped = Conversing.Step(Edition, State, new Turn($"turn {++_turns}", question, content), Now, Withdrawn);
        (State, Replies) = (stepped.State, stepped.Replies);
        Now += Duration.FromSeconds(20);
    }

    public void Choose(params (string Fact, string? Value)[] answers) =>
        Take(new TurnContent.Chosen([.. answers.Select(a => new ChosenAnswer(a.Fact, a.Value, a.Value is null))], false), Asked!.Name);

    public void None() => Take(new TurnContent.Chosen([], true), Asked!.Name);

    public void Type(string text) => Take(new TurnContent.Typed(text), Asked?.Name);

    public OneConversation Form(string age = "34", string where = "near the clinic", string whom = "me")
    {
        Choose(("about whom", whom), ("age", age), ("where now", where));
        return this;
    }

    /// <summary>Answers every question: what is listed as listed, all else clear. Null: not sure. Returns the screens asked after the form.</summary>
    public List<string> Answer(IReadOnlyDictionary<string, string?> answers, int most = 60)
    {
        var screens = new List<string>();
        while (Asked is { } question && screens.Count < most)
        {
            screens.Add(question.Name.Screen);
            var chosen = question.Facts
                .Select(f => (f.Fact, Value: answers.TryGetValue(f.Fact, out var value) ? value : Clear(f.Fact)))
                .Where(f => question.Kind != Triage.Asking.QuestionKind.Checklist || f.Value != "no")
                .ToArray();
            if (chosen.Length == 0)
                None();
            else
                Choose(chosen);
        }

        return screens;
    }

    static string Clear(string fact)
    {
        var found = Edition.Dialog.FindFact(fact)!;
        if (fact == "ears affected")
            return "left";
        return found.Clear is { } clear ? found.Values.NameOf(clear) : found.Values.NameOf(found.Values.Count - 1);
    }
}
