using EarHelp.Cli.Tests.Commands;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Cli.Tests.Signing;

namespace EarHelp.Cli.Tests.Keeping;

public sealed class BackupTests : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task A_running_service_is_backed_up_tried_out_and_restored_elsewhere_without_who_was_erased_since()
    {
        var (data, other, file) = (Path.Combine(_folder.FullName, "data"), Path.Combine(_folder.FullName, "other"), Path.Combine(_folder.FullName, "backup.gz"));
        Directory.CreateDirectory(data);
        var stays = await TalkAsync(data);
        var goes = await TalkAsync(data);
        Called made, erased;
        await using (await ServingProcess.StartAsync(Repository.Root, data))
        {
            made = await Called.WithAsync("backup", "--to", file, "--data", data);
            erased = await Called.WithAsync("erase", goes, "--data", data);
        }

        Assert.Equal((0, 0), (made.ExitCode, erased.ExitCode));
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        var tried = await Called.WithAsync("backup", "--verify", file);
        Assert.Equal((0, string.Empty), (tried.ExitCode, tried.Error));
        Assert.Contains("was restored and read", tried.Out, StringComparison.Ordinal);

        Assert.Equal(2, (await Called.WithAsync("restore", file, "--to", other)).ExitCode);
        var restored = await Called.WithAsync("restore", file, "--to", other, "--erased", Path.Combine(data, "erased.txt"));
        Assert.Equal((0, string.Empty), (restored.ExitCode, restored.Error));
        Assert.Contains("1 conversations were left out", restored.Out, StringComparison.Ordinal);
        Assert.Equal(0, (await Called.WithAsync("replay", stays, "--data", other)).ExitCode);
        Assert.Equal(1, (await Called.WithAsync("replay", goes, "--data", other)).ExitCode);
        Assert.Contains("Restored", (await Called.WithAsync("audit", "--data", other)).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_backup_that_is_cut_off_is_refused_and_no_backup_is_written_over()
    {
        var (data, other, file) = (Path.Combine(_folder.FullName, "data"), Path.Combine(_folder.FullName, "other"), Path.Combine(_folder.FullName, "backup.gz"));
        Directory.CreateDirectory(data);
        await TalkAsync(data);
        Assert.Equal(0, (await Called.WithAsync("backup", "--to", file, "--data", data)).ExitCode);
        Assert.Equal(2, (await Called.WithAsync("backup", "--to", file, "--data", data)).ExitCode);
        await using (var cut = new FileStream(file, FileMode.Open))
            cut.SetLength(cut.Length / 2);

        var tried = await Called.WithAsync("backup", "--verify", file);
        var restored = await Called.WithAsync("restore", file, "--to", other, "--none-erased");

        Assert.Equal((1, 1), (tried.ExitCode, restored.ExitCode));
        Assert.Contains("is damaged", tried.Error, StringComparison.Ordinal);
        Assert.Contains("is damaged", restored.Error, StringComparison.Ordinal);
    }

    static async Task<string> TalkAsync(string data) =>
        (await Called.WithInputAsync(":quit\n", "talk", "--data", data)).Error.Split('\n')[0].Split(' ')[1].Trim();
}
