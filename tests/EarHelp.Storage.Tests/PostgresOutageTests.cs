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
        var people = Enumerable.Range(0, 32).Select(i => Task.Run(() => TalkAsync(store, $"c{i}", ending.Token))).ToArray();

        for (var kill = 0; kill < 3; kill++)
        {
            await Task.Delay(300);
            await server.KillAsync();
            await Task.Delay(100);
            await server.StartAgainAsync();
        }

        await Task.Delay(300);
        await ending.CancelAsync();
        var told = await Task.WhenAll(people);

        Assert.True(store.IsHealthy);
        Assert.Contains(told, t => t.Refused > 0);
        foreach (var (conversation, acknowledged, _) in told)
        {
            var kept = await store.LoadAsync(conversation, default);
            Assert.InRange(kept.Length, acknowledged, acknowledged + 1);
        }
    }

    /// <summary>Sends each turn until it is acknowledged, as a person who presses the button again.</summary>
    static async Task<(string Conversation, int Acknowledged, int Refused)> TalkAsync(PostgresStore store, string conversation, CancellationToken ending)
    {
        var turn = SomeTurns.First(conversation);
        var (acknowledged, refused) = (0, 0);
        while (!ending.IsCancellationRequested)
        {
            try
            {
                Assert.IsNotType<Appended.Stale>(await store.AppendAsync(turn, [], default));
                acknowledged = turn.Number;
                turn = SomeTurns.After(turn);
            }
            catch (StoreFailedException)
            {
                refused++;
                await Task.Delay(10, CancellationToken.None);
            }
        }

        return (conversation, acknowledged, refused);
    }
}
