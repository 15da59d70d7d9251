using System.Text.Json;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Commands;

public sealed class CompareTests : IDisposable
{
    readonly CopiedEdition _edited = new CopiedEdition().With("dialogs/ear/5-rules-within-a-day.md", "| RF-064 | live insect | - | - | - | - | - | - | within a day |", "| RF-064 | live insect | - | - | - | - | - | - | within three days |");

    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose()
    {
        _edited.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task An_edit_that_changes_nothing_says_so()
    {
        var called = await Called.WithAsync("compare", Repository.Root, Repository.Root);

        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        Assert.Contains("changes for anyone", called.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_decrease_is_told_with_its_id_in_text_json_and_on_the_page()
    {
        var page = Path.Combine(_folder.FullName, "changes.html");

        var told = await Called.WithAsync("compare", Repository.Root, _edited.Root, "--html", page);
        var json = await Called.WithAsync("compare", Repository.Root, _edited.Root, "--json");

        var decrease = JsonDocument.Parse(json.Out).RootElement.GetProperty("changes").EnumerateArray().First();
        var id = decrease.GetProperty("id").GetString()!;
        Assert.Equal("less_urgent", decrease.GetProperty("kind").GetString());
        Assert.Contains($"[{id}] within a day -> within three days: ", told.Out, StringComparison.Ordinal);
        Assert.Contains("by rule \"RF-064\" changed (dialogs/ear/5-rules-within-a-day.md:", told.Out, StringComparison.Ordinal);
        Assert.Matches("Example patients who are told something else\n  .+: within a day.* -> within three days", told.Out);
        Assert.Contains($"<code id=\"{id}\">", await File.ReadAllTextAsync(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_neither_a_folder_nor_a_kept_edition_is_a_wrong_call()
    {
        var called = await Called.WithAsync("compare", Repository.Root, "no such edition");

        Assert.Equal(2, called.ExitCode);
    }

    [Fact]
    public async Task A_kept_edition_is_compared_by_its_identifier()
    {
        var data = Path.Combine(_folder.FullName, "data");
        await Called.WithInputAsync(":quit\n", "talk", "--data", data);
        var json = await Called.WithAsync("compare", Repository.Root, Repository.Root, "--json");
        var id = JsonDocument.Parse(json.Out).RootElement.GetProperty("before").GetString()!;

        var called = await Called.WithAsync("compare", id, Repository.Root, "--data", data);

        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        Assert.Contains("changes for anyone", called.Out, StringComparison.Ordinal);
    }
}
