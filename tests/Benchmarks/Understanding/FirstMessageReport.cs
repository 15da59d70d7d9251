using Benchmarks.Figures;
using Benchmarks.Rules;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Tests.Examples;
using NodaTime;

namespace Benchmarks.Understanding;

/// <summary>How many questions a first message saves, over all closed example patients.</summary>
static class FirstMessageReport
{
    /// <summary>A Tuesday morning at the clinic.</summary>
    static readonly Instant Now = Instant.FromUtc(2026, 11, 24, 10, 0);

    public static void Run()
    {
        var compiled = ShippedEdition.Compile();
        var edition = new ServedEdition(compiled.Edition!, compiled.Assessor!);
        var runs = EarHelp.Content.Examples.ExamplePatients.Check(SourceFolder.ReadExamples(Places.Root), edition.Edition, compiled.Assessor!).Runs;
        var saved = SavedQuestions.Of(edition, runs, Now);
        var (tapped, typed, always) = (SavedQuestions.Median(saved.Tapped), SavedQuestions.Median(saved.Typed), SavedQuestions.Median(saved.AlwaysAsked));
        foreach (var other in saved.Otherwise)
            Console.WriteLine(other);
        Console.WriteLine($"""
            example patients             {saved.Tapped.Length}; told otherwise after a first message: {saved.Otherwise.Length}
            questions, tapping           {tapped} (median), of which {always} are asked whatever was written
            questions, first message     {typed} (median), {Fewer(tapped, typed)} % fewer; target 40 %, within reach {Fewer(tapped, always)} %
            fewer for                    {saved.Typed.Zip(saved.Tapped).Count(p => p.First < p.Second)}, as many for {saved.Typed.Zip(saved.Tapped).Count(p => p.First == p.Second)}, more for {saved.Typed.Zip(saved.Tapped).Count(p => p.First > p.Second)}
            """);
    }

    static int Fewer(int before, int after) => 100 - (100 * after / Math.Max(1, before));
}
