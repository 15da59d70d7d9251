using System.Collections.Immutable;
using EarHelp.Proof.Properties;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>Who is asked what, by the proof, held against the engine's own choice of the next screen, patient by patient.</summary>
public sealed class AskingTests
{
    [Fact]
    public void The_proof_knows_every_screen_that_the_engine_asks_of_anybody()
    {
        for (var seed = 130_000; seed < 130_300; seed++)
        {
            var dialog = new RandomDialog(seed).Make();
            var assessor = Assessor.Build(dialog);
            var space = ProofSpace.Of(dialog, EditionProof.NodeLimit);
            var asking = new Asking(space);
            foreach (var patient in new CountedPatients(dialog).Possible)
            {
                var classes = patient.Select((value, fact) => space.Classes[fact].ClassOf(value)).ToArray();
                var known = asking.Screens.Where((_, i) => space.EndOf(asking.AskedOf(i), classes) == Terminal.True).Select(s => s.Id).ToArray();

                var asked = AskedBy(assessor, patient);

                Assert.Empty(asked.Except(known));
                if (dialog.Impossible.IsEmpty)
                    Assert.Equal(known, asked);
            }
        }
    }

    [Fact]
    public void Nobody_who_is_unsure_is_asked_more_screens_than_the_bound()
    {
        for (var seed = 131_000; seed < 131_300; seed++)
        {
            var chance = new RandomDialog(seed);
            var dialog = chance.Make();
            var assessor = Assessor.Build(dialog);
            var proof = new ProofContext(ProofSpace.Of(dialog, EditionProof.NodeLimit), null);
            var bound = Length.MostScreens(new Asking(proof.Space));
            for (var i = 0; i < 10; i++)
            {
                var says = chance.SomeAnswers(dialog).Select((a, f) => a is Answer.Asked ? a : new Answer.Asked(dialog.Facts[f].Values.All)).ToImmutableArray();
                Assert.True(AskedBy(assessor, f => says[f]).Length <= bound, $"Edition {seed}.");
            }
        }
    }

    static string[] AskedBy(Assessor assessor, int[] patient) => AskedBy(assessor, f => new Answer.Asked(ValueSet.Of(patient[f])));

    static string[] AskedBy(Assessor assessor, Func<int, Answer> says)
    {
        var answers = assessor.Dialog.Facts.Select(_ => Answer.Unknown).ToImmutableArray();
        var asked = new List<string>();
        while (assessor.NextScreen([new EarAnswers(Ear.Left, answers)]) is { } next)
        {
            asked.Add(next.Screen);
            answers = next.Facts.Aggregate(answers, (a, f) => a.SetItem(f, says(f)));
        }

        return [.. asked];
    }
}
