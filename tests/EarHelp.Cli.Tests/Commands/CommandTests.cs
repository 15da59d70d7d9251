using System.Text.Json;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Commands;

public sealed class CommandTests : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("chek")]
    [InlineData("check", "--nope")]
    [InlineData("serve", "--prot", "80")]
    [InlineData("check", "--root", "no such folder")]
    [InlineData("replay")]
    [InlineData("replay", "x", "--data", "no such folder")]
    [InlineData("facts", "--json", "--language", "xx")]
    public async Task A_wrong_call_ends_with_2_and_says_why_on_stderr(params string[] arguments)
    {
        var called = await Called.WithAsync(arguments);

        Assert.Equal(2, called.ExitCode);
        Assert.NotEmpty(called.Error);
    }

    [Theory]
    [InlineData("check")]
    [InlineData("talk")]
    [InlineData("replay")]
    [InlineData("erase")]
    [InlineData("facts")]
    [InlineData("assess")]
    [InlineData("understand")]
    [InlineData("health")]
    [InlineData("serve")]
    [InlineData("decide")]
    [InlineData("compare")]
    [InlineData("map")]
    [InlineData("explain")]
    [InlineData("export")]
    public async Task Every_command_teaches_with_an_example(string command)
    {
        var called = await Called.WithAsync(command, "--help");

        Assert.Equal(0, called.ExitCode);
        Assert.Contains("Try:", called.Out, StringComparison.Ordinal);
        Assert.Contains($"earhelp {command}", called.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_shipped_edition_has_no_fault_and_the_summary_counts_it()
    {
        var called = await Called.WithAsync("check");

        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        Assert.Matches(@"(?m)^\d+ files read, no fault: [1-9]\d* facts on [1-9]\d* screens, [1-9]\d* rules", called.Out);
    }

    [Fact]
    public async Task Every_fault_is_a_line_with_its_place_and_the_exit_code_is_1()
    {
        foreach (var name in (string[])["dialogs", "content"])
            CopyFolder(Path.Combine(Repository.Root, name), Path.Combine(_folder.FullName, name));
        var levels = Path.Combine(_folder.FullName, "dialogs", "levels.md");
        await File.WriteAllTextAsync(levels, (await File.ReadAllTextAsync(levels)).Replace("PT24H", "a day", StringComparison.Ordinal));

        var called = await Called.WithAsync("check", "--root", _folder.FullName);

        Assert.Equal(1, called.ExitCode);
        Assert.Matches(@"dialogs/levels\.md:\d+:\d+: error EH\d{4}: ", called.Error);
        Assert.Contains("faults found", called.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_bad_line_is_named_and_the_other_lines_are_still_answered()
    {
        var called = await Called.WithInputAsync(
            """
            {"id":1,"facts":{"age":52}}

            {"id":2,"facts":{"pulse":70}}
            {"id":3,"facts":{"age":52}}
            """,
            "assess");

        Assert.Equal(1, called.ExitCode);
        Assert.Equal("line 3: \"pulse\" is not a fact of this edition; \"earhelp facts\" lists them.", called.Error.Trim());
        Assert.Equal([1, 3], called.Out.Trim().Split('\n').Select(l => JsonDocument.Parse(l).RootElement.GetProperty("id").GetInt32()));
    }

    [Fact]
    public async Task Facts_as_json_name_everything_a_line_may_give()
    {
        var called = await Called.WithAsync("facts", "--json");

        var age = JsonDocument.Parse(called.Out).RootElement.EnumerateArray().Single(f => f.GetProperty("id").GetString() == "age");
        Assert.Equal(("person", "number", "years"), (age.GetProperty("about").GetString(), age.GetProperty("kind").GetString(), age.GetProperty("unit").GetString()));
        Assert.NotEmpty(age.GetProperty("question").GetProperty("ask").GetString()!);
    }

    [Fact]
    public async Task A_conversation_is_kept_replayed_to_the_same_replies_and_erased()
    {
        var talked = await Called.WithInputAsync("me\nan unknown word\n:start-over\n:quit\n", "talk", "--data", _folder.FullName);
        var id = talked.Error.Split('\n')[0].Split(' ')[1].Trim();

        var replayed = await Called.WithAsync("replay", id, "--data", _folder.FullName);
        var erased = await Called.WithAsync("erase", id, "--data", _folder.FullName);
        var gone = await Called.WithAsync("replay", id, "--data", _folder.FullName);

        Assert.Equal((0, 0, 0, 1), (talked.ExitCode, replayed.ExitCode, erased.ExitCode, gone.ExitCode));
        Assert.EndsWith("4 turns replayed, 0 differ", replayed.Out.Trim(), StringComparison.Ordinal);
        Assert.DoesNotContain(
            Directory.EnumerateFiles(_folder.FullName),
            f => File.ReadAllText(f).Contains("an unknown word", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Health_says_that_no_service_is_running()
    {
        var called = await Called.WithAsync("health", "--data", _folder.FullName);

        Assert.Equal(1, called.ExitCode);
    }

    static void CopyFolder(string from, string to)
    {
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }
}
