using EarHelp.Cli.Tests.Commands;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Signing;
using EarHelp.Servers.Host;
using EarHelp.Storage;

namespace EarHelp.Cli.Tests.Demonstrating;

public sealed class DemoStoreTests : IDisposable
{
    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task Both_stores_hold_the_same_week_for_the_same_seed_and_moment()
    {
        var schema = await PostgresServer.NewSchemaAsync();

        var folder = Called.WithAsync("demo", "--data", _data.FullName, "--seed", "7");
        var database = Called.WithAsync("demo", "--store", schema, "--seed", "7");

        Assert.Equal([0, 0], (await Task.WhenAll(folder, database)).Select(c => c.ExitCode));
        Assert.Equal(await WeekAsync(null), await WeekAsync(schema));
    }

    [Fact]
    public async Task A_store_that_holds_anything_is_refused_and_stays_as_it_was()
    {
        await Called.WithInputAsync(":quit\n", "talk", "--data", _data.FullName);

        var refused = await Called.WithAsync("demo", "--data", _data.FullName);

        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("the store holds something already", refused.Error, StringComparison.Ordinal);
        await using var store = StoreOpening.Open(_data.FullName, null, new StoreOptions());
        Assert.False((await Ledger.ReadAsync(store, CancellationToken.None)).IsInvented);
        Assert.Single(await store.ConversationsAsync(CancellationToken.None));
    }

    [Fact]
    public async Task Without_a_folder_or_a_database_nothing_is_filled()
    {
        var called = await Called.WithAsync("demo");

        Assert.Equal(2, called.ExitCode);
        Assert.Contains("--data FOLDER", called.Error, StringComparison.Ordinal);
    }

    /// <summary>All requests as they are written for programs, all identifiers, and the week's visits.</summary>
    async Task<(string Requests, string Conversations, string Visits)> WeekAsync(string? database)
    {
        await using var store = StoreOpening.Open(_data.FullName, database, new StoreOptions());
        var waiting = (await store.Requests.WaitingAsync(CancellationToken.None)).OrderBy(k => k.Request.Conversation, StringComparer.Ordinal);
        var visits = (await store.Visits.AllAsync(CancellationToken.None)).Select(v => $"{v.Conversation} {v.At} {string.Join(", ", v.Findings)}").Order(StringComparer.Ordinal);
        return (
            System.Text.Encoding.UTF8.GetString(RequestJson.Write([.. waiting])),
            string.Join('\n', await store.ConversationsAsync(CancellationToken.None)),
            string.Join('\n', visits));
    }
}
