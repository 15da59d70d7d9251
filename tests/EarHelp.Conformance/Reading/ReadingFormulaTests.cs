using System.Collections.Immutable;
using System.Diagnostics;
using System.Text.Json;
using EarHelp.Conformance.Guidelines;
using EarHelp.Conformance.Npm;
using EarHelp.Content.ReadingLevels;

namespace EarHelp.Conformance.Reading;

/// <summary>
/// Source of the expected scores: the npm packages flesch-kincaid 2.0.1, flesch 2.0.1, smog-formula 2.0.1, coleman-liau 2.0.1,
/// automated-readability 2.0.1 and syllable 5.0.1. The passages are all texts of the shipped edition of 20 words or more.
/// </summary>
public sealed class ReadingFormulaTests
{
    const int ShortestPassage = 20;

    static readonly ImmutableArray<ReadText> Passages =
        [.. ReadText.AllOf(ShippedAssessment.Edition.Wordings["en"]).Where(t => t.Counts.Words >= ShortestPassage)];

    static readonly Lazy<Task<ImmutableArray<Scored>>> Theirs = new(AskAsync);

    [Fact]
    public void There_are_at_least_two_hundred_passages() => Assert.InRange(Passages.Length, 200, int.MaxValue);

    [Fact]
    public async Task Each_formula_gives_what_its_package_gives()
    {
        var theirs = await Theirs.Value;

        Assert.Equal(Passages.Length, theirs.Length);
        Assert.All(Passages.Zip(theirs), p =>
        {
            Assert.Equal(p.Second.Grade, ReadingScores.FleschKincaidGrade(p.First.Counts), 9);
            Assert.Equal(p.Second.Ease, ReadingScores.FleschReadingEase(p.First.Counts), 9);
            Assert.Equal(p.Second.Smog, ReadingScores.Smog(p.First.Counts), 9);
            Assert.Equal(p.Second.Coleman, ReadingScores.ColemanLiau(p.First.Counts), 9);
            Assert.Equal(p.Second.Automated, ReadingScores.AutomatedReadability(p.First.Counts), 9);
        });
    }

    /// <summary>Syllables are counted by rules of spelling on both sides, and no two such counters agree on every word.</summary>
    [Fact]
    public async Task Syllables_are_counted_alike()
    {
        var theirs = await Theirs.Value;

        var ours = Passages.Sum(p => p.Counts.Syllables);
        var differences = Passages.Zip(theirs).Select(p => p.First.Grade - p.Second.GradeByTheirs).ToList();

        Assert.InRange((double)ours / theirs.Sum(t => t.Syllables), 0.99, 1.01);
        Assert.InRange(differences.Average(), -0.1, 0.1);
        Assert.InRange(differences.Average(Math.Abs), 0, 0.3);
    }

    static async Task<ImmutableArray<Scored>> AskAsync()
    {
        var start = new ProcessStartInfo(NpmPackages.Node) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Reading", "oracle.mjs"));
        start.ArgumentList.Add(new Uri(NpmPackages.PathOf("", "") + Path.DirectorySeparatorChar).AbsoluteUri);
        using var node = Process.Start(start)!;
        var output = node.StandardOutput.ReadToEndAsync();
        foreach (var passage in Passages)
            await node.StandardInput.WriteLineAsync(JsonOf(passage));
        node.StandardInput.Close();
        var answers = await output;
        await node.WaitForExitAsync();
        return [.. answers.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonSerializer.Deserialize<Scored>(l, JsonSerializerOptions.Web)!)];
    }

    static string JsonOf(ReadText text) => JsonSerializer.Serialize(new
    {
        counts = new
        {
            sentence = text.Counts.Sentences,
            word = text.Counts.Words,
            syllable = text.Counts.Syllables,
            letter = text.Counts.Letters,
            character = text.Counts.Letters,
            polysillabicWord = text.Counts.Polysyllables,
        },
        words = text.Lines.SelectMany(TextCounts.WordsOf),
    });

    sealed record Scored(double Grade, double Ease, double Smog, double Coleman, double Automated, int Syllables, double GradeByTheirs);
}
