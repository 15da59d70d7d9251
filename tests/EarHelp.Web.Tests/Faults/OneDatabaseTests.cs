using System.Globalization;
using System.Text;
using System.Text.Json;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Servers.Host;
using EarHelp.Storage;
using EarHelp.Web.Tests.CheckIns;
using EarHelp.Web.Tests.Nodes;
using EarHelp.Web.Tests.Running;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Faults;

/// <summary>
/// Nodes on one PostgreSQL database behind nginx and a bad way, with conversations that go on while one thing after the other fails, and the
/// nodes are replaced by those of another version.
/// </summary>
public sealed class OneDatabaseTests(ITestOutputHelper output) : IAsyncLifetime, IDisposable
{
    const int Visits = 8;

    /// <summary>The server takes its time with this one.</summary>
    const string SlowAddress = "slow@home.example.org";

    readonly MovedTime _time = new();
    readonly MovedTime _timeOfOther = new();
    readonly string _nextRoot = EditionCopy.Make();
    readonly NginxProxy _nginx = new();
    PostgresServer _server = null!;
    string _database = null!;
    SmtpProcess _mail = null!;
    IStore _store = null!;
    Node _first = null!;
    Node _second = null!;
    Node _next = null!;
    UnkindProxy _way = null!;
    Crowd _crowd = null!;

    public async Task InitializeAsync()
    {
        _server = await PostgresServer.StartAsync();
        _mail = await SmtpProcess.StartAsync();
        _database = await PostgresServer.NewSchemaAsync(_server.Address);
        EditionCopy.Reword(_nextRoot, "An answer is needed here.");
        SetClocks(MovedTime.ToTen());
        _first = NewNode(_time, FaultLength.OlderTree ?? Repository.Root);
        _second = NewNode(_timeOfOther, FaultLength.OlderTree ?? Repository.Root);
        _next = NewNode(_time, _nextRoot);
        if (FaultLength.OlderTree is { } older)
            _first.Program = _second.Program = [Path.Combine(older, "src", "EarHelp.Web", "bin", "Release", "net10.0", "EarHelp.Web.dll")];
        await Task.WhenAll(_first.StartAsync(), _second.StartAsync());
        await _nginx.StartAsync(Ways.FreePort(), _first.Address, _second.Address);
        _store = StoreOpening.Open(_database, new StoreOptions());
        _way = await UnkindProxy.StartAsync(_nginx.Address);
        _crowd = new Crowd(_way.Address, FaultLength.Conversations, FaultLength.OnTheirWay, output, () => string.Join("\n\n", new[] { _first, _second, _next }.Select(n => n.Told)));

        Node NewNode(MovedTime time, string root) => new(_database, Ways.FreePort()) { Environment = time.Environment, Root = root, Settings = [.. AskedService.SettingsFor(_mail)] };
    }

    public async Task DisposeAsync()
    {
        await _crowd.DisposeAsync();
        await _way.DisposeAsync();
        await _nginx.DisposeAsync();
        foreach (var node in (Node[])[_first, _second, _next])
            await node.DisposeAsync();
        await _store.DisposeAsync();
        await _mail.DisposeAsync();
        await _server.DisposeAsync();
        Directory.Delete(_nextRoot, recursive: true);
    }

    public void Dispose()
    {
        _time.Dispose();
        _timeOfOther.Dispose();
    }

    [Fact]
    public async Task Whatever_fails_of_several_nodes_every_acknowledged_turn_is_kept_once_and_every_check_in_arrives()
    {
        await RecordVisitsAsync();
        await _crowd.BeginAsync();
        var visitors = Task.WhenAll(Enumerable.Range(0, FaultLength.Visitors).Select(i => Visitor.TakeTimeAsync(_crowd.NewPerson(), confirms: i % 2 == 0)));

        await KillWhileItSendsAsync();
        await PauseAsync();
        await CutOffDatabaseAsync();
        await FillDiskOfDatabaseAsync();
        await MoveClockAsync();
        await UpgradeAsync();
        await visitors;
        await _crowd.EndAsync();
        await SentAsync();

        var whole = await KeptWhole.LookAsync(_store, _crowd.Told, _time.Now, [.. _mail.Taken().Select(m => m.Text)]);
        output.WriteLine($"{FaultLength.Conversations} conversations open at once. {whole}");
        output.WriteLine($"{_crowd.TwoTabs} questions answered in two tabs. The way: {_way.Told}.");
        whole.AssertIsWhole();
        Assert.Equal(Visits, whole.CheckIns);
        Assert.True(whole.Repeats > 0, "Nobody was cut off while sending.");
        Assert.True(whole.Times >= FaultLength.Visitors / 2, "Who took a time for good has none.");
        Assert.True(_way.HasDoneEverything, "The way was kinder than it should be: " + _way.Told);
    }

    /// <summary>A day later check-ins are due, and the node that sends them is killed between the server's acceptance and the record.</summary>
    async Task KillWhileItSendsAsync()
    {
        await _first.KillAsync();
        await _crowd.MoreAsync("a node killed");
        await _second.PauseAsync();
        SetClocks(_time.Ahead + TimeSpan.FromDays(1));
        await _first.StartAsync();
        await Waiting.UntilAsync(async () => !(await FollowUpsAsync()).Single(f => f.Email == SlowAddress).Messages.IsEmpty, () => "The check-in of the slow address was never claimed.");
        await _first.KillAsync();
        await _second.ResumeAsync();
        await _crowd.MoreAsync("killed while it sends, the other paused");
        SetClocks(_time.Ahead + TimeSpan.FromMinutes(20));
        await _first.StartAsync();
        await _crowd.MoreAsync("started again");
    }

    async Task PauseAsync()
    {
        await _second.PauseAsync();
        await _crowd.MoreAsync("a node paused");
        await _second.ResumeAsync();
        await _crowd.MoreAsync("paused and resumed");
    }

    async Task CutOffDatabaseAsync()
    {
        await _server.KillAsync();
        await _crowd.RefusedAsync();
        await Task.Delay(FaultLength.Outage);
        Assert.Equal((200, 503), (await _first.StatusAsync("/health/live"), await _first.StatusAsync("/health/ready")));
        await _server.StartAgainAsync();
        await _crowd.MoreAsync("database gone");
    }

    async Task FillDiskOfDatabaseAsync()
    {
        await _server.FillDiskAsync();
        await _crowd.RefusedAsync();
        await _server.StartAgainAsync();
        await _crowd.MoreAsync("disk of the database full");
    }

    /// <summary>One node's clock jumps forward and back, the other's stays.</summary>
    async Task MoveClockAsync()
    {
        foreach (var hours in (int[])[2, -1, 0])
        {
            _timeOfOther.Set(_time.Ahead + TimeSpan.FromHours(hours));
            await _second.UntilClockAsync(_timeOfOther);
            await _crowd.MoreAsync($"one clock {hours} hours off");
        }

        SetClocks(_time.Ahead + TimeSpan.FromHours(2));
    }

    /// <summary>A node of a later version, with tables and an edition of its own, comes beside the others, and one of them goes.</summary>
    async Task UpgradeAsync()
    {
        await LaterTablesAsync();
        await _crowd.MoreAsync("tables of a later version");
        await _next.StartAsync();
        await _nginx.ChangeAsync(_first.Address, _second.Address, _next.Address);
        await _crowd.MoreAsync("a node added");
        await _nginx.ChangeAsync(_second.Address, _next.Address);
        await _crowd.MoreAsync("a node taken out");
        await _first.StopAsync();
        await _crowd.MoreAsync("stopped");
        Assert.NotEqual(await EditionAsync(_second), await EditionAsync(_next));
    }

    /// <summary>What a later version may do to the tables: it adds to them.</summary>
    Task LaterTablesAsync() => PostgresServer.DoAsync(
        _database,
        """
        insert into migrations (name, hash) values ('9999-later', 'of a later version');
        alter table conversations add column later integer not null default 0;
        alter table turns add column later text;
        create table later (id text primary key);
        """);

    /// <summary>What is due is sent once the node looks again, and it looks when it starts.</summary>
    Task SentAsync() => Waiting.UntilAsync(async () => (await FollowUpsAsync()).All(f => f.Messages is [{ State: MessageState.Accepted }]), () => "Not every check-in was sent.");

    void SetClocks(TimeSpan ahead)
    {
        _time.Set(ahead);
        _timeOfOther.Set(ahead);
    }

    async Task RecordVisitsAsync()
    {
        var day = _time.Now.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        foreach (var email in Enumerable.Range(1, Visits - 1).Select(i => string.Create(CultureInfo.InvariantCulture, $"p{i}@home.example.org")).Append(SlowAddress))
        {
            var visit = new { at = day + "T09:00", by = "Kim", findings = new[] { new { finding = "suction", ear = "left" } }, email };
            using var body = new StringContent(JsonSerializer.Serialize(visit), Encoding.UTF8, "application/json");
            Assert.Contains("conversation", await _first.AskAsync(HttpMethod.Post, "control/visit", body), StringComparison.Ordinal);
        }
    }

    async Task<List<FollowUp>> FollowUpsAsync() => [.. (await _store.FollowUps.AllAsync(default)).Where(f => f.Email.Length > 0)];

    static async Task<string> EditionAsync(Node node) => await node.AskAsync(HttpMethod.Get, "control/edition");
}
