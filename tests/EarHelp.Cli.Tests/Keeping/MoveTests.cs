using EarHelp.Cli.Tests.Commands;
using EarHelp.Servers.Host;

namespace EarHelp.Cli.Tests.Keeping;

public sealed class MoveTests : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task A_conversation_goes_to_a_database_and_back_and_is_replayed_the_same()
    {
        var (first, second) = (Path.Combine(_folder.FullName, "first"), Path.Combine(_folder.FullName, "second"));
        Directory.CreateDirectory(first);
        var conversation = (await Called.WithInputAsync(":quit\n", "talk", "--data", first)).Error.Split('\n')[0].Split(' ')[1].Trim();
        var replayed = await Called.WithAsync("replay", conversation, "--data", first);
        var database = await PostgresServer.NewSchemaAsync();

        var there = await Called.WithAsync("move", "--from", first, "--to", database);
        var again = await Called.WithAsync("move", "--from", first, "--to", database);
        var back = await Called.WithAsync("move", "--from", database, "--to", second);

        Assert.Equal(0, there.ExitCode);
        Assert.Contains("All of it arrived", there.Out, StringComparison.Ordinal);
        Assert.Contains("Not moved: the other files of the data folder", there.Error, StringComparison.Ordinal);
        Assert.Equal((1, string.Empty), (again.ExitCode, again.Out));
        Assert.Contains("Name one that is empty", again.Error, StringComparison.Ordinal);
        Assert.Equal((0, there.Out), (back.ExitCode, back.Out));
        Assert.Equal(replayed.Out, (await Called.WithAsync("replay", conversation, "--data", second)).Out);
    }

    [Fact]
    public async Task A_folder_without_a_store_is_no_source()
    {
        var called = await Called.WithAsync("move", "--from", _folder.FullName, "--to", Path.Combine(_folder.FullName, "other"));

        Assert.Equal(2, called.ExitCode);
        Assert.Contains("there is no store in the folder", called.Error, StringComparison.Ordinal);
        Assert.Empty(_folder.EnumerateFileSystemInfos());
    }
}
