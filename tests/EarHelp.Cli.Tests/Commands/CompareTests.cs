using System.Text.Json;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Commands;

public sealed class CompareTests : IDisposable
{
    static readonly string Whole = Path.Combine(Repository.Root, "tests", "EarHelp.Content.Tests", "SmallEdition");

    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task An_edit_that_changes_nothing_says_so()
    {
        var called = await Called.WithAsync("compare", Whole, Whole);

        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        Assert.Contains("changes for anyone", called.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_decrease_is_told_with_its_id_in_text_json_and_on_the_page()
    {
        var edited = await EditedAsync();
        var page = Path.Combine(_folder.FullName, "changes.html");

        var told = await Called.WithAsync("compare", Whole, edited, "--html", page);
        var json = await Called.WithAsync("compare", Whole, edited, "--json");

        var decrease = JsonDocument.Parse(json.Out).RootElement.GetProperty("changes").EnumerateArray().First();
        var id = decrease.GetProperty("id").GetString()!;
        Assert.Equal("less_urgent", decrease.GetProperty("kind").GetString());
        Assert.Contains($"[{id}] within a day -> within three days: 6,606,600 patients", told.Out, StringComparison.Ordinal);
        Assert.Contains($"<code id=\"{id}\">", await File.ReadAllTextAsync(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_neither_a_folder_nor_a_kept_edition_is_a_wrong_call()
    {
        var called = await Called.WithAsync("compare", Whole, "no such edition");

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

    async Task<string> EditedAsync()
    {
        var to = Path.Combine(_folder.FullName, "edited");
        foreach (var file in Directory.EnumerateFiles(Whole, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(to, Path.GetRelativePath(Whole, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        var rules = Path.Combine(to, "dialogs", "nip", "rules.md");
        await File.WriteAllTextAsync(rules, (await File.ReadAllTextAsync(rules)).Replace("| large | within a day |", "| large | within three days |", StringComparison.Ordinal));
        return to;
    }
}
