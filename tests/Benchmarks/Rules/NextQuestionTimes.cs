using System.Collections.Immutable;
using System.Diagnostics;
using Benchmarks.Figures;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;

namespace Benchmarks.Rules;

/// <summary>How long the next question takes at each step of conversations with example patients and drawn ones, and how long the edition takes to load.</summary>
static class NextQuestionTimes
{
    const int Conversations = 200;
    const int Loads = 7;
    const int WarmUps = 3;
    const int Seed = 7;

    public static void Run()
    {
        var loads = new Samples();
        for (var i = 0; i < Loads; i++)
            loads.Time(() => ShippedEdition.Compile());
        var assessor = ShippedEdition.Compile().Assessor!;
        var table = new FigureTable("next question and loading");
        AddWalks(table, "the example patients", assessor, ExamplePatients.Read(assessor.Dialog));
        var chance = new Random(Seed);
        AddWalks(table, $"{Conversations} drawn patients", assessor, [.. Enumerable.Range(0, Conversations).Select(_ => Draw(assessor, chance))]);
        AddEnds(table, assessor, ExamplePatients.Read(assessor.Dialog));
        table.Add("load and check the shipped edition, median", FigureTable.Of(loads.Median / 1000, "ms"), "at most 3 000 ms with its proof");
        table.Add("the first time, with everything cold", FigureTable.Of(loads.First / 1000, "ms"), "");
        table.Add("diagrams of the shipped edition alone, median", FigureTable.Of(Diagrams(assessor).Median / 1000, "ms"), "");
        table.Add("diagram nodes of the shipped edition", FigureTable.Of(assessor.NodeCount, "nodes"), "");
        table.Print(Console.Out);
    }

    static ImmutableArray<Answer> Draw(Assessor assessor, Random chance) =>
        Patient.Draw(assessor.Dialog, chance, clearPercent: 92).Answers().OfFact;

    static void AddWalks(FigureTable table, string who, Assessor assessor, List<ImmutableArray<Answer>> patients)
    {
        for (var warming = 0; warming < WarmUps; warming++)
            Walk(assessor, patients, new Samples());
        var asked = new Samples();
        var screens = Walk(assessor, patients, asked);
        table.Add($"next question, {who}, median of {asked.Count}", FigureTable.Of(asked.Median, "µs"), "at most 50 µs");
        table.Add("… 99 of 100", FigureTable.Of(asked.At(0.99), "µs"), "");
        table.Add("… worst", FigureTable.Of(asked.Worst / 1000, "ms"), "at most 5 ms");
        table.Add($"… screens of a conversation, mean of {patients.Count}", FigureTable.Of((double)screens / patients.Count, "screens"), "");
    }

    /// <summary>The assessment at the end of a conversation, where much was never asked because it cannot matter any more.</summary>
    static void AddEnds(FigureTable table, Assessor assessor, List<ImmutableArray<Answer>> patients)
    {
        var ends = new Samples();
        foreach (var patient in patients)
        {
            var answers = patient.Select(_ => Answer.Unknown).ToArray();
            while (assessor.NextScreen([new(Ear.Left, [.. answers])]) is { } screen)
            {
                foreach (var fact in screen.Facts)
                    answers[fact] = patient[fact];
            }

            ImmutableArray<EarAnswers> ears = [new(Ear.Left, [.. answers])];
            ends.Time(() => assessor.Assess(ears));
        }

        table.Add("assessment at the end of the example patients' conversations, median", FigureTable.Of(ends.Median, "µs"), "");
        table.Add("… worst", FigureTable.Of(ends.Worst, "µs"), "");
    }

    static Samples Diagrams(Assessor assessor)
    {
        var builds = new Samples();
        for (var i = 0; i < Loads; i++)
            builds.Time(() => Assessor.Build(assessor.Dialog));
        return builds;
    }

    /// <returns>How many screens were shown.</returns>
    static int Walk(Assessor assessor, List<ImmutableArray<Answer>> patients, Samples asked)
    {
        var screens = 0;
        foreach (var patient in patients)
        {
            var answers = patient.Select(_ => Answer.Unknown).ToArray();
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
                    answers[fact] = patient[fact];
            }
        }

        return screens;
    }
}
