using EarHelp.Understanding.Messages;

namespace EarHelp.Understanding.Tests.Utterances;

/// <summary>What anybody would write first says what it says.</summary>
public class PlainSentenceTests
{
    [Fact]
    public void Each_plain_sentence_says_its_fact()
    {
        var rows = File.ReadLines(TuningTests.PathOf(Path.Combine("Plain", "sentences.md")))
            .Where(l => l.StartsWith("| ", StringComparison.Ordinal)).Skip(1).Select(l => l.Split('|', StringSplitOptions.TrimEntries)).ToList();

        Assert.InRange(rows.Count, 150, int.MaxValue);
        Assert.Empty(rows.Where(r => !Some.Hear(r[1]).Facts.Any(f => f.Fact == Some.Fact(r[2]) && f.Standing == Standing.Affirmed)).Select(r => $"{r[1]}: {r[2]}"));
    }
}
