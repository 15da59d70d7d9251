using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Tests.Scoring;

namespace EarHelp.Understanding.Tests.Utterances;

/// <summary>Short messages about danger in wordings as far apart as their writer could think of: read no worse than when they were counted last.</summary>
public class EmergencyTests
{
    static readonly Score Counted = Score.Of(
        Utterance.ReadFile(TuningTests.PathOf(Path.Combine("Danger", "emergency.jsonl"))), Some.Book, Some.Wording, text => TopicReader.Read(Some.Book, text)?.Found?.Id);

    [Fact]
    public void Danger_signs_are_named() => Assert.InRange(Counted.RedFlags.Found, (int)(Counted.RedFlags.Of * 0.97), Counted.RedFlags.Of);

    [Fact]
    public void Emergencies_are_found() => Assert.InRange(Counted.Signposts.Right, (int)(Counted.Signposts.Of * 0.94), Counted.Signposts.Of);
}
