using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Tests.Scoring;

namespace EarHelp.Understanding.Tests.Utterances;

/// <summary>The messages on which the phrases were tuned are read no worse than when they were counted last.</summary>
public class TuningTests
{
    static PhraseBook Book => Some.Book;

    static readonly Score Counted = Score.Of(Utterance.ReadFile(PathOf("tuning.jsonl")), Book, Some.Wording, text => TopicReader.Read(Book, text)?.Found?.Id);

    [Fact]
    public void Facts_are_found_and_little_else() =>
        Assert.True(Counted.Facts is { Precision: >= 0.93, Recall: >= 0.95 }, Counted.Facts.ToString());

    [Fact]
    public void Denials_are_found_and_little_else() =>
        Assert.True(Counted.Denials is { Precision: >= 0.94, Recall: >= 0.92 }, Counted.Denials.ToString());

    [Fact]
    public void Danger_signs_are_named() => Assert.InRange(Counted.RedFlags.Found, (int)(Counted.RedFlags.Of * 0.99), Counted.RedFlags.Of);

    [Fact]
    public void Few_denials_are_read_as_said() => Assert.InRange(Counted.DeniedAsAffirmed, 0, 1);

    [Fact]
    public void Questions_find_an_answer_that_fits() => Assert.InRange(Counted.Topics.Right, (int)(Counted.Topics.Of * 0.90), Counted.Topics.Of);

    internal static string PathOf(string file) =>
        Path.Combine(EarHelp.Content.Sources.SourceFolder.FindRoot(AppContext.BaseDirectory)!, "tests", "EarHelp.Understanding.Tests", "Utterances", file);
}
