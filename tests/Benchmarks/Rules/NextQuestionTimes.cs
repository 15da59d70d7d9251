using System.Collections.Immutable;
using System.Diagnostics;
using Benchmarks.Figures;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Facts;

namespace Benchmarks.Rules;

/// <summary>How long the next question takes at each step of conversations with drawn patients, and how long the edition takes to load.</summary>
static class NextQuestionTimes
{
    const int Conversations = 200;
    const int Loads = 7;
    const int Seed = 7;

    public static void Run()
    {
        var loads = new Samples();
        for (var i = 0; i < Loads; i++)
            loads.Time(() => ShippedEdition.Compile());
        var assessor = ShippedEdition.Compile().Assessor!;
        Walk(assessor, new Random(Seed), new Samples(), conversations: 20);
        var asked = new Samples();
        var screens = Walk(assessor, new Random(Seed), asked, Conversations);

        var table = new FigureTable("next question and loading");
        table.Add($"next question, median of {asked.Count}", FigureTable.Of(asked.Median, "µs"), "at most 50 µs");
        table.Add("next question, 99 of 100", FigureTable.Of(asked.At(0.99), "µs"), "");
        table.Add("next question, worst", FigureTable.Of(asked.Worst / 1000, "ms"), "at most 5 ms");
        table.Add($"screens of a conversation, mean of {Conversations}", FigureTable.Of(screens, "screens"), "");
        table.Add("load and check the shipped edition, median", FigureTable.Of(loads.Median / 1000, "ms"), "at most 3 000 ms with its proof");
        table.Add("diagram nodes of the shipped edition", FigureTable.Of(assessor.NodeCount, "nodes"), "");
        table.Print(Console.Out);
    }

    static double Walk(Assessor assessor, Random chance, Samples asked, int conversations)
    {
        var screens = 0;
        for (var i = 0; i < conversations; i++)
        {
            var patient = Patient.Draw(assessor.Dialog, chance, clearPercent: 92);
            var answers = Enumerable.Repeat(Answer.Unknown, patient.Values.Length).ToArray();
            while (true)
            {
                ImmutableArray<EarAnswers> ears = [new(Ear.Left, [.. answers])];
                var from = Stopwatch.GetTimestamp();
                var screen = assessor.NextScreen(ears);
                asked.Add(Stopwatch.GetElapsedTime(from));
                if (screen is null)
                    break;
                screens++;
                foreach (var fact in screen.Facts)
                    answers[fact] = patient.Values[fact] is { } value ? new Answer.Asked(ValueSet.Of(value)) : Answer.DoesNotApply;
            }
        }

        return (double)screens / conversations;
    }
}
