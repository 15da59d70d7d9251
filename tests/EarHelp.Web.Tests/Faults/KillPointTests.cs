using EarHelp.Servers.Host;
using EarHelp.Storage;
using EarHelp.Web.Tests.Host;
using EarHelp.Web.Tests.Nodes;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Faults;

/// <summary>The service killed at each point between receiving a form and answering it, again and again while people go on.</summary>
public sealed class KillPointTests(ITestOutputHelper output)
{
    const int People = 4;

    /// <summary>Turns that are taken before one is hit.</summary>
    const int TurnsBefore = 9;

    /// <summary>137: ended by signal 9.</summary>
    const int Killed = 128 + 9;

    public static TheoryData<bool> Stores => new(false, true);

    [Theory]
    [MemberData(nameof(Stores))]
    public async Task Killed_between_receiving_and_answering_the_service_neither_loses_nor_doubles_a_turn(bool hasDatabase)
    {
        var database = hasDatabase ? await PostgresServer.NewSchemaAsync() : null;
        await using var node = new Node(database, Ways.FreePort());
        await using var crowd = new Crowd(node.Address, People, People, output, () => node.Told);
        var service = node.Program;
        var beginning = Task.CompletedTask;
        foreach (var point in hasDatabase && !FaultLength.IsLong ? [DeathPoint.Saving] : Enum.GetValues<DeathPoint>())
        {
            node.Program = [Path.Combine(AppContext.BaseDirectory, "EarHelp.Web.Tests.Host.dll"), $"{point}", $"{TurnsBefore}"];
            await node.StartAsync();
            if (beginning == Task.CompletedTask)
                beginning = crowd.BeginAsync();
            Assert.Equal(Killed, await node.EndedAsync());
        }

        node.Program = service;
        await node.StartAsync();
        await beginning;
        await crowd.MoreAsync("killed at each point");
        await crowd.EndAsync();
        await node.KillAsync();

        await using var store = StoreOpening.Open(node.Data, database, new StoreOptions());
        var whole = await KeptWhole.LookAsync(store, crowd.Told, TimeProvider.System.GetUtcNow());
        output.WriteLine(whole.ToString());
        whole.AssertIsWhole();
    }
}
