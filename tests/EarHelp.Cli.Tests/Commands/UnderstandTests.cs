using System.Text.Json;

namespace EarHelp.Cli.Tests.Commands;

/// <summary><c>earhelp understand</c> over messages that are invented.</summary>
public sealed class UnderstandTests
{
    [Fact]
    public async Task A_message_is_read_with_the_words_that_each_claim_rests_on()
    {
        var called = await Called.WithInputAsync("""{"id":"m1","text":"no pain but my left ear is leaking","at":"2026-08-05T09:30"}""" + "\n", "understand");

        using var json = JsonDocument.Parse(called.Out);
        Assert.Equal("m1", json.RootElement.GetProperty("id").GetString());
        Assert.Equal("pain", Assert.Single(json.RootElement.GetProperty("denied").EnumerateArray()).GetProperty("fact").GetString());
        Assert.Contains(json.RootElement.GetProperty("facts").EnumerateArray(), f => f.GetProperty("fact").GetString() == "discharge" && f.GetProperty("words").GetString() == "ear is leaking");
    }

    [Fact]
    public async Task The_explanation_names_the_word_that_denies()
    {
        var called = await Called.WithInputAsync("""{"id":1,"text":"not dizzy"}""" + "\n", "understand", "--explain");

        Assert.Contains("denies what follows: \"not\"", called.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_line_that_is_no_message_is_told_and_the_others_are_read()
    {
        var called = await Called.WithInputAsync("{\"id\":1}\n{\"id\":2,\"text\":\"itchy ear\"}\n", "understand");

        Assert.Contains("line 1:", called.Error, StringComparison.Ordinal);
        Assert.Contains("itch", called.Out, StringComparison.Ordinal);
        Assert.Equal(1, called.ExitCode);
    }
}
