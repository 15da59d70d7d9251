using System.Collections.Immutable;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Triage.Tests.Assessments;

/// <summary>What holds for every edition, whatever its tables say.</summary>
public sealed class EngineLawTests
{
    [Fact]
    public void No_patient_who_meets_a_row_gets_a_level_below_it()
    {
        for (var seed = 10_000; seed < 10_200; seed++)
        {
            var dialog = new RandomDialog(seed).Make();
            var assessor = Assessor.Build(dialog);
            var reading = new PlainReading(dialog);
            ImmutableArray<Answer> nothing = [.. dialog.Facts.Select(_ => Answer.Unknown)];
            foreach (var patient in AllPatients.Completions(dialog, nothing).Where(reading.IsPossible))
            {
                var level = assessor.LevelOf(assessor.ClassesOf(new EarAnswers(Ear.Left, Known(patient))));

                Assert.All(dialog.Rules.Where(r => r.Level is not null && reading.Matches(r, patient)), r => Assert.True(level <= r.Level));
            }
        }
    }

    [Fact]
    public void Being_unsure_is_never_safer_than_any_value_it_may_stand_for()
    {
        for (var seed = 20_000; seed < 20_300; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            var assessor = Assessor.Build(dialog);
            var answers = chance.SomeAnswers(dialog);
            var fact = dialog.Facts[chance.Next(dialog.Facts.Length)];

            var unsure = assessor.Assess([new EarAnswers(Ear.Left, answers.SetItem(fact.Index, new Answer.Asked(fact.Values.All)))]);

            for (var value = 0; value < fact.Values.Count; value++)
            {
                var sure = assessor.Assess([new EarAnswers(Ear.Left, answers.SetItem(fact.Index, new Answer.Asked(ValueSet.Of(value))))]);
                Assert.True(!sure.IsPossible || unsure.AtMost <= sure.AtMost, $"seed {seed}");

                // Where some answers are impossible together, a value can rule out completions that stay open while unsure.
                Assert.True(!dialog.Impossible.IsEmpty || unsure.AtLeast <= sure.AtLeast, $"seed {seed}");
            }
        }
    }

    [Fact]
    public void An_item_to_do_that_is_shown_while_unsure_is_shown_for_every_value()
    {
        for (var seed = 30_000; seed < 30_300; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            var assessor = Assessor.Build(dialog);
            ImmutableArray<Answer> unsure = [.. dialog.Facts.Select(f => new Answer.Asked(f.Values.All))];
            var shown = assessor.Assess([new EarAnswers(Ear.Left, unsure)]).Advice.Where(a => a.Kind == AdviceKind.ToDo).ToArray();
            var reading = new PlainReading(dialog);

            foreach (var patient in AllPatients.Completions(dialog, [.. dialog.Facts.Select(_ => Answer.Unknown)]).Where(reading.IsPossible))
                Assert.All(shown, item => Assert.True(reading.Read(patient).Advice[item.Item], $"seed {seed}"));
        }
    }

    [Fact]
    public void Answers_given_in_any_order_lead_to_the_same_result()
    {
        for (var seed = 40_000; seed < 40_100; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            var patient = dialog.Facts.Select(f => chance.Next(f.Values.Count)).ToArray();
            var assessor = Assessor.Build(dialog);
            var whole = assessor.Assess([new EarAnswers(Ear.Left, Known(patient))]);
            if (!whole.IsPossible)
                continue;

            var answers = dialog.Facts.Select(_ => Answer.Unknown).ToImmutableArray();
            while (assessor.NextScreen([new EarAnswers(Ear.Left, answers)]) is { } next)
                answers = next.Facts.Aggregate(answers, (a, f) => a.SetItem(f, new Answer.Asked(ValueSet.Of(patient[f]))));
            var asked = assessor.Assess([new EarAnswers(Ear.Left, answers)]);

            Assert.Equal(whole.Level, asked.Level);
            if (asked.Level > 0)
            {
                Assert.Equal(whole.Destinations.ToArray(), asked.Destinations.ToArray());
                Assert.Equal(whole.Advice.ToArray(), asked.Advice.ToArray());
                Assert.Equal(whole.Warnings.ToArray(), asked.Warnings.ToArray());
                Assert.Equal(whole.MayTreat, asked.MayTreat);
            }
        }
    }

    static ImmutableArray<Answer> Known(int[] patient) => [.. patient.Select(v => new Answer.Asked(ValueSet.Of(v)))];
}
