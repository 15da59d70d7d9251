using EarHelp.Conversation.Keeping;
using EarHelp.Servers.Host;
using EarHelp.Storage.Postgres;

namespace EarHelp.Storage.Tests;

public sealed class PostgresOutageTests
{
    [Fact]
    public async Task A_server_killed_under_load_loses_no_acknowledged_turn_and_is_taken_up_again_by_itself()
    {
        await using var server = await PostgresServer.StartAsync();
        await using var store = PostgresStore.Open(await PostgresServer.NewSchemaAsync(server.Address), new StoreOptions());
        using var ending = new CancellationTokenSource();
        using var seen = new Seen();
        var people = Enumerable.Range(0, 32).Select(i => Task.Run(() => TalkAsync(store, $"c{i}", seen, ending.Token))).ToArray();

        for (var kill = 0; kill < 3; kill++)
        {
            await seen.MoreAcknowledgedAsync();
            await server.KillAsync();
            await seen.MoreRefusedAsync();
            await server.StartAgainAsync();
        }

        await seen.MoreAcknowledgedAsync();
        await ending.CancelAsync();
        var told = await Task.WhenAll(people);

        Assert.True(store.IsHealthy);
        foreach (var (conversation, acknowledged) in told)
        {
            var kept = await store.LoadAsync(conversation, default);
            Assert.InRange(kept.Length, acknowledged, acknowledged + 1);
        }
    }

    /// <summary>Sends each turn until it is acknowledged, as a person who presses the button again.</summary>
    static async Task<(string Conversation, int Acknowledged)> TalkAsync(PostgresStore store, string conversation, Seen seen, CancellationToken ending)
    {
        var turn = SomeTurns.First(conversation);
        var acknowledged = 0;
        while (!ending.IsCancellationRequested)
        {
            try
            {
                Assert.IsNotType<Appended.Stale>(await store.AppendAsync(turn, [], default));
                acknowledged = turn.Number;
                turn = SomeTurns.After(turn);
                seen.Acknowledged();
            }
            catch (StoreFailedException)
            {
                seen.Refused();
                await Task.Yield();
            }
        }

        return (conversation, acknowledged);
    }

    /// <summary>What all of them have seen so far, to be waited for.</summary>
    sealed class Seen : IDisposable
    {
        const int Enough = 64;

        readonly SemaphoreSlim _acknowledged = new(0);
        readonly SemaphoreSlim _refused = new(0);

        public void Acknowledged() => _acknowledged.Release();

        public void Refused() => _refused.Release();

        public Task MoreAcknowledgedAsync() => MoreAsync(_acknowledged);

        public Task MoreRefusedAsync() => MoreAsync(_refused);

        public void Dispose()
        {
            _acknowledged.Dispose();
            _refused.Dispose();
        }

        /// <summary>As many as say that it has happened to several, counted from now.</summary>
        static async Task MoreAsync(SemaphoreSlim happened)
        {
            while (happened.CurrentCount > 0)
                await happened.WaitAsync();
            for (var i = 0; i < Enough; i++)
                Assert.True(await happened.WaitAsync(TimeSpan.FromMinutes(1)), "The store did not come so far within a minute.");
        }
    }
}
