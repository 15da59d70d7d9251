using System.Text.Json;
using EarHelp.Cli.Tests.Commands;

namespace EarHelp.Cli.Tests.Visiting;

public sealed class RecordsTests : IDisposable
{
    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task Conversations_of_a_day_and_the_questions_are_written_and_the_audit_trail_says_so()
    {
        var conversation = (await Called.WithInputAsync(":quit\n", "talk", "--data", _data.FullName)).Error.Split('\n')[0].Split(' ')[1].Trim();

        var questions = await Called.WithAsync("records", "--questions");
        var day = await Called.WithAsync("records", "--day", "2026-11-20", "--data", _data.FullName);
        var nothingTold = await Called.WithAsync("records", "--conversation", conversation, "--data", _data.FullName);

        Assert.Equal("Questionnaire", TypeOf(questions.Out));
        Assert.Equal("Bundle", TypeOf(day.Out));
        Assert.Equal(1, nothingTold.ExitCode);
        Assert.Contains("in which something was told", nothingTold.Error, StringComparison.Ordinal);
        Assert.Contains($"WroteRecords  {conversation}", (await Called.WithAsync("audit", "--data", _data.FullName)).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("name either --conversation ID or --day")]
    [InlineData("\"yesterday\" is not a day", "--day", "yesterday")]
    public async Task Wrong_use_is_told_with_the_mend(string told, params string[] options)
    {
        var called = await Called.WithAsync(["records", .. options, "--data", _data.FullName]);

        Assert.Equal(2, called.ExitCode);
        Assert.Contains(told, called.Error, StringComparison.Ordinal);
    }

    static string? TypeOf(string json)
    {
        using var document = JsonDocument.Parse(json);
        return document.RootElement.GetProperty("resourceType").GetString();
    }
}
