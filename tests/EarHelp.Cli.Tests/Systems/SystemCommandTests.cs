using EarHelp.Cli.Tests.Commands;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Cli.Tests.Signing;
using EarHelp.Storage;
using EarHelp.Web.Security;

namespace EarHelp.Cli.Tests.Systems;

public sealed class SystemCommandTests : IDisposable
{
    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task A_token_is_made_listed_and_ended_in_the_store_and_through_a_running_service()
    {
        await OnceAsync();
        await using (var service = await ServingProcess.StartAsync(Repository.Root, _data.FullName))
            await OnceAsync();

        await using var store = StoreOpening.Open(_data.FullName, null, new StoreOptions());
        Assert.All(await store.Staff.AllAsync(CancellationToken.None), a => Assert.Null(a.TokenHash));
        var trail = (await store.Audit.ReadAsync(CancellationToken.None)).Entries;
        Assert.Equal(["LetSystemRead", "AccountClosed", "LetSystemRead", "AccountClosed"], trail.Select(e => $"{e.Deed}"));
    }

    [Theory]
    [InlineData]
    [InlineData("Records", "--list")]
    public async Task Wrong_use_is_told_with_the_mend(params string[] options)
    {
        var called = await Called.WithAsync(["system", .. options, "--data", _data.FullName]);

        Assert.Equal(2, called.ExitCode);
        Assert.Contains("name a system, or --list, or --end ID", called.Error, StringComparison.Ordinal);
    }

    async Task OnceAsync()
    {
        var made = await Called.WithAsync("system", "Records", "--data", _data.FullName);
        var (id, token) = (made.Out.Split('\n')[0]["system ".Length..], made.Out.Split('\n')[1]["token ".Length..]);
        Assert.True(Secret.IsWellFormed(token));

        Assert.Equal($"{id}  Records\n", (await Called.WithAsync("system", "--list", "--data", _data.FullName)).Out);
        Assert.Equal(0, (await Called.WithAsync("system", "--end", id, "--data", _data.FullName)).ExitCode);
        Assert.Equal((1, string.Empty), (await Called.WithAsync("system", "--end", id, "--data", _data.FullName) is var again ? (again.ExitCode, again.Out) : default));
        Assert.Empty((await Called.WithAsync("system", "--list", "--data", _data.FullName)).Out);
    }
}
