using EarHelp.Storage;
using EarHelp.Web.Tests.Nodes;
using EarHelp.Web.Tests.Running;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Faults;

/// <summary>One process with the store in its data folder, behind a bad way, with conversations that go on while one thing after the other fails.</summary>
public sealed class OneMachineTests(ITestOutputHelper output)
{
    static readonly TimeSpan LengthOfPause = TimeSpan.FromSeconds(1);

    [Fact]
    public async Task Whatever_fails_of_one_machine_every_acknowledged_turn_is_kept_once()
    {
        using var time = new MovedTime();
        await using var node = new Node(null, Ways.FreePort()) { Environment = time.Environment };
        await node.StartAsync();
        await using var way = await UnkindProxy.StartAsync(node.Address);
        await using var crowd = new Crowd(way.Address, FaultLength.Conversations, FaultLength.OnTheirWay, output, () => node.Told);
        await crowd.BeginAsync();
        var visitors = Task.WhenAll(Enumerable.Range(0, FaultLength.Visitors).Select(i => Visitor.TakeTimeAsync(crowd.NewPerson(), confirms: i % 2 == 0)));

        await crowd.MoreAsync("an unkind way");
        await FillDiskAsync(node, crowd);
        await PauseAsync(node, crowd);
        foreach (var hours in (int[])[48, -3, 0])
        {
            time.Set(TimeSpan.FromHours(hours));
            await node.UntilClockAsync(time);
            await crowd.MoreAsync($"clock {hours} hours off");
        }

        await visitors;
        await crowd.EndAsync();
        await node.KillAsync();

        await using var store = StoreOpening.Open(node.Data, null, new StoreOptions());
        var whole = await KeptWhole.LookAsync(store, crowd.Told, time.Now.AddHours(48));
        output.WriteLine($"{FaultLength.Conversations} conversations open at once. {whole}");
        output.WriteLine($"{crowd.TwoTabs} questions answered in two tabs. The way: {way.Told}.");
        whole.AssertIsWhole();
    }

    /// <summary>The service says that it is not ready, shows the emergency page, takes nothing, and has everything once there is room again.</summary>
    static async Task FillDiskAsync(Node node, Crowd crowd)
    {
        await node.FillDiskAsync();
        await crowd.RefusedAsync();
        await Waiting.UntilAsync(async () => await node.StatusAsync("/health/ready") == 503, () => "It says that it is ready although its disk is full.");
        Assert.Equal(200, await node.StatusAsync("/health/live"));
        await node.KillAsync();
        await node.StartAsync();
        await crowd.MoreAsync("disk full, killed and started again");
    }

    static async Task PauseAsync(Node node, Crowd crowd)
    {
        await node.PauseAsync();
        await Task.Delay(LengthOfPause);
        await node.ResumeAsync();
        await crowd.MoreAsync("paused");
    }
}
