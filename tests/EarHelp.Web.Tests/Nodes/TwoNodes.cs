using System.Globalization;
using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Keeping;
using EarHelp.Servers.Host;
using EarHelp.Storage;
using EarHelp.Web.Tests.CheckIns;
using EarHelp.Web.Tests.Faults;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>Two processes of the service on one PostgreSQL database, with a clock that can be moved and a mail server.</summary>
public sealed class TwoNodes : IAsyncLifetime
{
    string _database = null!;

    public Node First { get; private set; } = null!;

    public Node Second { get; private set; } = null!;

    public SmtpProcess Mail { get; private set; } = null!;

    /// <summary>The store as a third node has it.</summary>
    public IStore Store { get; private set; } = null!;

    internal MovedTime Time { get; } = new();

    public async Task InitializeAsync()
    {
        Time.Set(MovedTime.ToTen());
        _database = await PostgresServer.NewSchemaAsync();
        Mail = await SmtpProcess.StartAsync();
        (First, Second) = (NewNode(), NewNode());
        await Task.WhenAll(First.StartAsync(), Second.StartAsync());
        Store = StoreOpening.Open(_database, new StoreOptions());
    }

    public async Task DisposeAsync()
    {
        await Store.DisposeAsync();
        await First.DisposeAsync();
        await Second.DisposeAsync();
        await Mail.DisposeAsync();
        Time.Dispose();
    }

    /// <summary>Both nodes end, and start again at the same moment with another clock: so they look at once after what is due.</summary>
    public async Task StartAgainAsync(TimeSpan ahead)
    {
        await First.KillAsync();
        await Second.KillAsync();
        Time.Set(ahead);
        await Task.WhenAll(First.StartAsync(), Second.StartAsync());
    }

    /// <summary>A visit of one hour ago, of somebody who agreed to be asked after it.</summary>
    public async Task RecordVisitAsync(string email)
    {
        var at = Time.Now.AddHours(-1).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);
        var visit = new { at, by = "Kim", findings = new[] { new { finding = "suction", ear = "left" } }, email };
        using var body = new StringContent(JsonSerializer.Serialize(visit), Encoding.UTF8, "application/json");
        Assert.Contains("conversation", await First.AskAsync(HttpMethod.Post, "control/visit", body), StringComparison.Ordinal);
    }

    /// <summary>Adds to the ledger as a node does it whose message is lost on the way.</summary>
    public Task InsertIntoLedgerAsync(ChainedRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return PostgresServer.AddToLedgerAsync(_database, record.Number, record.Body, record.PreviousHash, record.Hash);
    }

    /// <summary>Waits until something is so.</summary>
    public Task UntilAsync(Func<Task<bool>> isSo) => Waiting.UntilAsync(isSo, () => "It was not so in time. " + First.Printed + Second.Printed);

    Node NewNode() => new(_database, Ways.FreePort()) { Environment = Time.Environment, Settings = [.. AskedService.SettingsFor(Mail)] };
}
