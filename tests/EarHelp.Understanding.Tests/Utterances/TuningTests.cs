using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Tests.Scoring;

namespace EarHelp.Understanding.Tests.Utterances;

/// <summary>The messages on which the phrases were tuned are read no worse than when they were counted last.</summary>
public class TuningTests
{
    static PhraseBook Book => Some.Book;

    internal static readonly string[] Files = ["tuning.jsonl", "set-aside.jsonl", "later.jsonl", "fresh.jsonl", "newest.jsonl"];

    static readonly Score Counted = Score.Of(Files.SelectMany(f => Utterance.ReadFile(PathOf(f))), Book, Some.Wording, text => TopicReader.Read(Book, text)?.Found?.Id);

    [Fact]
    public void Facts_are_found_and_little_else() =>
        Assert.True(Counted.Facts is { Precision: >= 0.965, Recall: >= 0.965 }, Counted.Facts.ToString());

    [Fact]
    public void Denials_are_found_and_little_else() =>
        Assert.True(Counted.Denials is { Precision: >= 0.96, Recall: >= 0.935 }, Counted.Denials.ToString());

    [Fact]
    public void Times_belong_to_what_they_are_said_of() =>
        Assert.True(Counted.Times is { Precision: >= 0.95, Recall: >= 0.88 }, Counted.Times.ToString());

    [Fact]
    public void Danger_signs_are_named() => Assert.InRange(Counted.RedFlags.Found, (int)(Counted.RedFlags.Of * 0.995), Counted.RedFlags.Of);

    [Fact]
    public void Emergencies_are_found() => Assert.InRange(Counted.Signposts.Right, (int)(Counted.Signposts.Of * 0.98), Counted.Signposts.Of);

    [Fact]
    public void A_denial_is_read_as_said_only_where_the_thing_is_also_told() => Assert.InRange(Counted.DeniedAsAffirmed, 0, 2);

    [Fact]
    public void Questions_find_an_answer_that_fits() => Assert.InRange(Counted.Topics.Right, (int)(Counted.Topics.Of * 0.95), Counted.Topics.Of);

    internal static string PathOf(string file) =>
        Path.Combine(EarHelp.Content.Sources.SourceFolder.FindRoot(AppContext.BaseDirectory)!, "tests", "EarHelp.Understanding.Tests", "Utterances", file);
}
