using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Triage.Tests.Assessments;

public sealed class AssessorAgainstPlainReadingTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(250)]
    [InlineData(500)]
    [InlineData(750)]
    public void Says_what_a_plain_reading_says_for_partial_answers_in_random_dialogs(int firstSeed)
    {
        for (var seed = firstSeed; seed < firstSeed + 250; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            var assessor = Assessor.Build(dialog);
            for (var i = 0; i < 10; i++)
                Compare(seed, dialog, assessor, chance.SomeAnswers(dialog));
        }
    }

    [Fact]
    public void Says_what_a_plain_reading_says_for_patients_whose_every_answer_is_sure()
    {
        for (var seed = 50_000; seed < 50_300; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            var assessor = Assessor.Build(dialog);
            var reading = new PlainReading(dialog);
            foreach (var patient in AllPatients.Completions(dialog, [.. dialog.Facts.Select(_ => Answer.Unknown)]).Take(40))
            {
                ImmutableArray<Answer> sure = [.. dialog.Facts.Select(f => (Answer)new Answer.Asked(ValueSet.Of(patient[f.Index])))];
                Compare(seed, dialog, assessor, sure);
                Compare(seed, dialog, assessor, [.. dialog.Facts.Select(f => f.AppliesWhen.All(c => reading.Holds(c, patient)) ? sure[f.Index] : Answer.DoesNotApply)]);
                if (!reading.IsPossible(patient))
                    continue;
                var said = assessor.Assess([new EarAnswers(Ear.Left, sure)]);
                Assert.True(said.Settled && said.Level == assessor.LevelOf(assessor.ClassesOf(new EarAnswers(Ear.Left, sure))), $"seed {seed}: level");
                Assert.True(
                    dialog.Rules.Where(r => reading.Matches(r, patient)).Select(r => r.Index).SequenceEqual(said.Rules.Select(r => r.Rule).Order()),
                    $"seed {seed}: rules");
            }
        }
    }

    static void Compare(int seed, Dialog dialog, Assessor assessor, ImmutableArray<Answer> answers)
    {
        var reading = new PlainReading(dialog);
        var results = AllPatients.Completions(dialog, answers)
            .Select(c => (Completion: c, Result: reading.ReadAll(AllPatients.Members(dialog, answers, c))))
            .Where(r => r.Result is not null)
            .ToDictionary(r => string.Join(',', r.Completion), r => (r.Completion, Result: r.Result!), StringComparer.Ordinal);

        var said = assessor.Assess([new EarAnswers(Ear.Left, answers)]);

        Assert.True(results.Count > 0 == said.IsPossible, $"seed {seed}: possible");
        if (!said.IsPossible)
            return;
        Assert.True(results.Values.Min(r => r.Result.Rank) == said.AtMost, $"seed {seed}: most urgent");
        Assert.True(results.Values.Max(r => r.Result.Rank) == said.AtLeast, $"seed {seed}: least urgent");
        if (said.AtLeast == 0)
        {
            Assert.True(said.Settled && assessor.NextScreen([new EarAnswers(Ear.Left, answers)]) is null, $"seed {seed}: stops at once");
            return;
        }

        var open = MatteringFacts(dialog, answers, results);
        Assert.True(open.SequenceEqual(said.Open.Select(o => o.Fact)), $"seed {seed}: open {string.Join(',', open)} but said {string.Join(',', said.Open.Select(o => o.Fact))}");
        Assert.True(open.Count == 0 == (results.Values.Select(r => r.Result).Distinct().Count() == 1), $"seed {seed}: settled");
        var next = assessor.NextScreen([new EarAnswers(Ear.Left, answers)]);
        Assert.True((next is null ? [] : next.Facts.AsEnumerable()).SequenceEqual(open.Take(1)), $"seed {seed}: next question");
        if (!said.Settled)
            return;
        var only = results.Values.First().Result;
        Assert.True(only.Where.SetEquals(said.Destinations), $"seed {seed}: destinations");
        Assert.True(
            dialog.Advice.Where(a => only.Advice[a.Index]).Select(a => a.Index).SequenceEqual(said.Advice.Select(a => a.Item)),
            $"seed {seed}: advice");
        Assert.True(only.Warns == !said.Warnings.IsEmpty, $"seed {seed}: warnings");
        if (!dialog.TreatRules.IsEmpty)
        {
            var holds = dialog.TreatRules.Select(t => t.Hold).Distinct().ToList();
            Assert.True(said.MayTreat is not null && holds[only.Treat] == said.MayTreat.Hold, $"seed {seed}: may treat");
        }
    }

    /// <summary>Two possible completions that differ in this fact alone have different results; or, if no fact does so alone, all that are left.</summary>
    static List<int> MatteringFacts(
        Dialog dialog,
        ImmutableArray<Answer> answers,
        Dictionary<string, (int[] Completion, PlainResult Result)> results)
    {
        var mattering = dialog.Facts
            .Where(f => answers[f.Index] is not Answer.Asked)
            .Where(f => results.Values.Any(r => Enumerable.Range(0, f.Values.Count).Any(v => Differs(r, f.Index, v))))
            .Select(f => f.Index)
            .ToList();
        var isSettled = results.Values.Select(r => r.Result).Distinct().Count() == 1;
        return mattering.Count > 0 || isSettled ? mattering : [.. Left()];

        // No single answer changes anything, yet two completions differ: impossible answers lie between them.
        IEnumerable<int> Left() => dialog.Facts.Select(f => f.Index).Where(i => answers[i] is not Answer.Asked && DependsOn(i));

        bool DependsOn(int fact) => results.Values.Select(r => r.Completion[fact]).Distinct().Count() > 1;

        bool Differs((int[] Completion, PlainResult Result) one, int fact, int value)
        {
            int[] other = [.. one.Completion];
            other[fact] = value;
            return results.TryGetValue(string.Join(',', other), out var found) && !found.Result.Equals(one.Result);
        }
    }
}
