using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Examples;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>One example patient who holds a conversation, turn by turn, as the pages would take it.</summary>
sealed class HeldTalk(TurnTaking turns, MovedClock clock, ServedEdition edition)
{
    /// <summary>Far more than any conversation asks: beyond it something goes round in circles.</summary>
    const int MostTurns = 200;

    const int ShortestPauseSeconds = 8;
    const int LongestPauseSeconds = 35;

    /// <returns>The conversation as it stands at the end.</returns>
    public async Task<ConversationState> HoldAsync(string conversation, ChosenPatient patient, CancellationToken cancellation)
    {
        clock.Now = patient.At;
        var pauses = new Random(patient.Seed);
        var taken = 0;
        var state = patient.IsAfterVisit
            ? await TakeAsync(new TurnContent.CameBack(), null).ConfigureAwait(false)
            : await TakeAsync(new TurnContent.Begin(edition.DefaultLanguage) { Recorded = patient.Recorded }, null).ConfigureAwait(false);
        if (patient.Message is { } message)
        {
            await TakeAsync(new TurnContent.Typed(message), null).ConfigureAwait(false);
            state = await TakeAsync(new TurnContent.ShareWords(IsAllowed: true), null).ConfigureAwait(false);
        }

        while (state.Pending is { } pending && taken < Math.Min(patient.MostTurns, MostTurns))
            state = await TakeAsync(pending.ReadBack.IsEmpty ? Answer(patient, pending.Question) : Confirm(pending.ReadBack), pending.Question.Name).ConfigureAwait(false);
        return state;

        async Task<ConversationState> TakeAsync(TurnContent content, QuestionName? question)
        {
            var id = string.Create(CultureInfo.InvariantCulture, $"{patient.Seed}-{++taken}");
            var turn = await turns.TakeAsync(conversation, new Turn(id, question, content), [], cancellation).ConfigureAwait(false);
            clock.Now += Duration.FromSeconds(pauses.Next(ShortestPauseSeconds, LongestPauseSeconds));
            return turn is TurnTaken.Kept kept ? kept.State : throw new StoreFailedException($"Turn {id} of an invented conversation was not kept.");
        }
    }

    /// <summary>What was read out of the message is not what this person meant.</summary>
    static TurnContent.Chosen Confirm(ImmutableArray<ReadBack> understood) => new([], NoneOfThese: understood.Length > 0);

    TurnContent.Chosen Answer(ChosenPatient patient, Question question) =>
        new([.. question.Facts.Select(f => AnswerTo(patient, f, question.Name.Ear))], NoneOfThese: false);

    ChosenAnswer AnswerTo(ChosenPatient patient, AskedFact asked, Ear? ear)
    {
        var fact = edition.Dialog.FindFact(asked.Fact)!;
        if (fact.Id == patient.NotSureOf)
            return new ChosenAnswer(asked.Fact, null, NotSure: true);
        var set = Known(patient.Run, fact, ear);
        var written = set is null ? Clear(fact, asked) : WrittenValue.Of(fact, set);
        if (fact.Values is FactValues.Named && !asked.Options.Any(o => o.Value == written))
            written = set?.Only is { } only ? asked.Options.FirstOrDefault(o => o.Value.Split(", ").Contains(fact.Values.NameOf(only)))?.Value : null;
        return new ChosenAnswer(asked.Fact, written, written is null);
    }

    static string Clear(Fact fact, AskedFact asked) =>
        fact is { Clear: { } clear, Counted: null } ? fact.Values.NameOf(clear) : asked.Options.IsEmpty ? "1" : asked.Options[0].Value;

    static ValueSet? Known(ExampleRun run, Fact fact, Ear? ear)
    {
        var of = run.Ears.FirstOrDefault(e => ear is null or Ear.Either || e.Ear == ear) ?? run.Ears[0];
        return of.OfFact[fact.Index] is Answer.Asked { MayBe: var set } && (set.Only is not null || fact.Values is FactValues.Numbers) ? set : null;
    }
}
