using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Clinic.Tests.Visits;

/// <summary>Somebody whose answers hang on a number only: the same ones to the same questions, with a record and without.</summary>
sealed class RandomPatient(int seed)
{
    public static Instant Now { get; } = Instant.FromUtc(2026, 11, 24, 10, 0);

    readonly Dictionary<(string, Ear?), ChosenAnswer> _said = [];

    /// <summary>Every question that was asked.</summary>
    public List<(string Fact, Ear? Ear)> Asked { get; } = [];

    public OutcomeTold Talk(ServedEdition edition, ImmutableArray<RecordedFact> recorded)
    {
        Asked.Clear();
        var stepped = Conversing.Step(edition, null, new Turn("0", null, new TurnContent.Begin("en") { Recorded = recorded }), Now);
        for (var turn = 1; turn < 120; turn++)
        {
            if (stepped.State.Pending is not { } pending)
                return stepped.Replies.OfType<Reply.Outcome>().Last().Told;
            var question = pending.Question;
            Asked.AddRange(question.Facts.Select(f => (f.Fact, question.Name.Ear)));
            ImmutableArray<ChosenAnswer> answers = [.. question.Facts.Select(f => AnswerTo(f, question.Name.Ear))];
            stepped = Conversing.Step(edition, stepped.State, new Turn(turn.ToString(CultureInfo.InvariantCulture), question.Name, new TurnContent.Chosen(answers, NoneOfThese: false)), Now);
        }

        throw new InvalidOperationException($"No outcome after 120 turns with the seed {seed}.");
    }

    /// <summary>Mostly "no", or the first of other values; rarely another one or "not sure": every other person has little or nothing else.</summary>
    ChosenAnswer AnswerTo(AskedFact asked, Ear? ear)
    {
        if (_said.TryGetValue((asked.Fact, ear), out var said))
            return said;
        var random = new Random(Mix(asked.Fact, ear));
        return _said[(asked.Fact, ear)] = Draw(asked, random);
    }

    int Mix(string fact, Ear? ear) => fact.Aggregate(unchecked((seed * 7919) + (int?)ear ?? 17), (mixed, letter) => unchecked((mixed * 31) + letter));

    ChosenAnswer Draw(AskedFact asked, Random random)
    {
        var dice = random.Next(seed % 2 == 0 ? 60 : 400);
        if (asked.Fact == "age")
            return new ChosenAnswer(asked.Fact, random.Next(18, 90).ToString(CultureInfo.InvariantCulture), NotSure: false);
        if (dice == 0 && asked.OffersNotSure)
            return new ChosenAnswer(asked.Fact, null, NotSure: true);
        if (asked.Options.IsEmpty)
            return new ChosenAnswer(asked.Fact, (asked.Input!.From ?? 0).ToString(CultureInfo.InvariantCulture), NotSure: false);
        var isOften = asked.Fact is "blocked" or "ears affected" or "where now";
        var clear = asked.Options[^1].Value == "no" ? asked.Options.Length - 1 : 0;
        var at = isOften || dice < 3 ? random.Next(asked.Options.Length) : clear;
        return new ChosenAnswer(asked.Fact, asked.Options[at].Value, NotSure: false);
    }
}
