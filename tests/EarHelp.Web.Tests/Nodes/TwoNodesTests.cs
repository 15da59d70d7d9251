using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using NodaTime;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Nodes;

public sealed partial class TwoNodesTests(TwoNodes nodes, ITestOutputHelper output) : IClassFixture<TwoNodes>
{
    [Fact]
    public async Task Staff_who_signed_in_at_one_node_work_at_the_other_and_hear_there_of_a_request()
    {
        using var here = new Colleague(new Patient(nodes.First.Address), "ada", () => nodes.Time.Now);
        await here.JoinAsync(Code().Matches(nodes.First.Printed)[^1].Groups["code"].Value);
        var account = "/staff/accounts/" + (await nodes.Store.Staff.AllAsync(default)).Single(a => a.SignInName == "ada").Id;
        await here.SendAsync(account + "/roles", await here.Browser.ReadAsync(account), ("roles", "administrator"), ("roles", "desk"));
        using var there = new Patient(nodes.Second.Address, here.Browser.Cookies);
        Assert.Equal(HttpStatusCode.OK, (await there.ReadAsync("/staff/desk")).Status);
        using var asking = new HttpRequestMessage(HttpMethod.Get, "/staff/desk/events");
        using var events = await there.StreamAsync(asking);
        using var lines = new StreamReader(await events.Content.ReadAsStreamAsync());
        Assert.Equal(":", await lines.ReadLineAsync());
        using var patient = new Patient(nodes.First.Address);
        await Asking.PlanAsync(patient);
        var rung = RungAsync(lines);

        await Asking.AskAsync(patient, ("name", "Yara"), ("number", "07700 900123"));

        await nodes.UntilAsync(() => Task.FromResult(rung.IsCompleted));
        await rung;
        Assert.Contains("Yara", (await there.ReadAsync("/staff/desk")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_people_who_ask_two_nodes_for_one_time_at_once_one_has_it()
    {
        var people = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => AskedAsync(i % 2 == 0 ? nodes.First : nodes.Second)));
        var pages = await Task.WhenAll(people.Select(p => p.ReadAsync("/visit/times")));
        for (var round = 0; round < 3; round++)
        {
            var start = Starts(pages[0])[round];

            await Task.WhenAll(people.Zip(pages, (person, page) => person.PostAsync("/visit/hold", page.FormTo("/visit/hold").Append(KeyValuePair.Create("start", start)))));
            pages = await Task.WhenAll(people.Select(p => p.ReadAsync("/visit/times")));

            var holders = (await nodes.Store.Requests.WaitingAsync(default)).Count(k => k.Request.Held is { } held && StartOf(held.Time) == start);
            Assert.Equal(1, holders);
        }

        Assert.Equal(0, await SharedTimesAsync());
        foreach (var person in people)
            person.Dispose();
    }

    [Fact]
    public async Task The_first_form_that_comes_to_two_nodes_at_once_begins_one_conversation()
    {
        for (var round = 0; round < 6; round++)
        {
            using var patient = new Patient(nodes.First.Address);
            using var twin = new Patient(nodes.Second.Address, patient.Cookies);
            var page = await patient.ReadAsync("/");
            List<KeyValuePair<string, string>> form = [.. page.Hidden, new("a:about whom", "me"), new("n:age", "34"), new("a:where now", "near the clinic")];

            await Task.WhenAll(patient.PostAsync("/answer", form), twin.PostAsync("/answer", form));

            var turn = form.Single(f => f.Key == "turn").Value;
            Assert.Equal(1, await HoldersAsync(turn));
        }
    }

    [Fact]
    public async Task A_clinic_that_closes_at_once_at_one_node_offers_nothing_at_the_other()
    {
        using var patient = await AskedAsync(nodes.First);
        Assert.NotEmpty(Starts(await patient.ReadAsync("/visit/times")));
        var now = Now;
        var closing = new KeptClosing(now, now.InUtc().Date.PlusDays(60), null);

        await nodes.Store.Closings.PutAsync(closing, default);
        await nodes.UntilAsync(async () => Starts(await patient.ReadAsync("/visit/times")).Count == 0);
        await nodes.Store.Closings.PutAsync(closing with { LiftedAt = Now }, default);

        await nodes.UntilAsync(async () => Starts(await patient.ReadAsync("/visit/times")).Count > 0);
    }

    /// <summary>How soon: <c>tests/Benchmarks spread</c>.</summary>
    [Fact]
    public async Task An_edition_that_is_published_anywhere_is_served_at_every_node_even_if_the_message_of_it_is_lost()
    {
        await PublishedAsync("Please answer this.", isTold: true);
        await PublishedAsync("Please do answer this.", isTold: false);
    }

    [Fact]
    public async Task What_the_clock_brings_is_done_once_although_two_nodes_look_at_the_same_moment()
    {
        var addresses = Enumerable.Range(1, 6).Select(i => string.Create(CultureInfo.InvariantCulture, $"p{i}@home.example.org")).ToList();
        foreach (var email in addresses)
            await nodes.RecordVisitAsync(email);
        for (var i = 0; i < 4; i++)
        {
            using var unfinished = new Patient(nodes.First.Address);
            await unfinished.BeginAsync();
            (await AskedAsync(nodes.Second, Asking.DullForWeeks)).Dispose();
        }

        await nodes.StartAgainAsync(nodes.Time.Ahead + TimeSpan.FromDays(1));
        await nodes.UntilAsync(async () => (await nodes.Store.FollowUps.AllAsync(default)).All(f => f.Email.Length == 0 || f.Messages is [{ State: MessageState.Accepted }]));
        var mails = nodes.Mail.Taken().Select(m => m.Text).ToList();
        var due = (await RequestsAsync()).Where(r => r.Urgency.AnswerBy is not null).ToList();
        var latest = due.Max(r => Escalation.DueAt(r, r.Urgency)!.Value).ToDateTimeOffset() - TimeProvider.System.GetUtcNow();
        var before = (await nodes.Store.ConversationsAsync(default)).Length;
        await nodes.StartAgainAsync(TimeSpan.FromTicks(Math.Max(latest.Ticks, (nodes.Time.Ahead + TimeSpan.FromDays(8)).Ticks)) + TimeSpan.FromMinutes(1));
        await nodes.UntilAsync(async () => (await RequestsAsync()).All(r => r.Urgency.AnswerBy is null || Escalation.IsEscalated(r, r.Urgency)));
        await nodes.UntilAsync(() => Task.FromResult(Removed().Count > 0));

        var escalated = (await nodes.Store.Audit.ReadAsync(default)).Entries.Where(e => e.Deed == AuditDeed.Escalated).GroupBy(e => e.Conversation).ToList();
        var removed = before - (await nodes.Store.ConversationsAsync(default)).Length;
        output.WriteLine($"{mails.Count} check-ins sent, {escalated.Count} requests escalated, {removed} unfinished conversations removed, each once by one of two nodes.");
        Assert.All(addresses, a => Assert.Single(mails, m => m.Contains($"To: {a}\r\n", StringComparison.Ordinal)));
        Assert.True(escalated.Count >= 4, "Nothing was escalated.");
        Assert.All(escalated, e => Assert.Single(e));
        Assert.True(removed >= 4, "Nothing was removed.");
        Assert.Equal(removed, Removed().Sum());
    }

    /// <summary>How many conversations hold a turn.</summary>
    async Task<int> HoldersAsync(string turn)
    {
        var holders = 0;
        foreach (var conversation in await nodes.Store.ConversationsAsync(default))
            holders += (await nodes.Store.LoadAsync(conversation, default)).Count(t => t.TurnId == turn);
        return holders;
    }

    /// <summary>How many unfinished conversations each node says that it has removed.</summary>
    List<int> Removed() =>
        [.. RemovedLine().Matches(nodes.First.Printed + nodes.Second.Printed).Select(m => int.Parse(m.Groups["count"].Value, CultureInfo.InvariantCulture))];

    async Task<List<VisitRequest>> RequestsAsync() => [.. (await nodes.Store.Requests.WaitingAsync(default)).Select(k => k.Request)];

    /// <summary>Has an edition signed, so that the nodes have it at hand, and publishes it as a third node does it.</summary>
    /// <param name="isTold">False: the message of it is lost.</param>
    async Task PublishedAsync(string notice, bool isTold)
    {
        var copy = EditionCopy.Make();
        EditionCopy.Reword(copy, notice);
        var sources = SourceFolder.Read(copy);
        Directory.Delete(copy, recursive: true);
        var edition = EditionCompiler.Compile(sources, CompileOptions.Plain).Edition!.Id;
        await nodes.Store.KeepAsync(edition, SourcePack.Pack(sources), default);
        Assert.True(await ((IEditionLedger)nodes.Store).AppendAsync(await NextAsync(DeedKind.SignedAsApprover), default));
        await nodes.UntilAsync(() => Task.FromResult(((Node[])[nodes.First, nodes.Second]).All(n => n.Printed.Contains($"Edition {edition} was signed", StringComparison.Ordinal))));
        var record = await NextAsync(DeedKind.Published);
        if (isTold)
            Assert.True(await ((IEditionLedger)nodes.Store).AppendAsync(record, default));
        else
            await nodes.InsertIntoLedgerAsync(record);
        foreach (var node in (Node[])[nodes.First, nodes.Second])
            await nodes.UntilAsync(async () => (await node.AskAsync(HttpMethod.Get, "control/edition")).Contains(edition, StringComparison.Ordinal));

        async Task<ChainedRecord> NextAsync(DeedKind kind) => (await Ledger.ReadAsync(nodes.Store, default)).Next(new Deed(kind, edition, 0, "Al", "author", "released"));
    }

    Instant Now => Instant.FromDateTimeOffset(nodes.Time.Now);

    /// <summary>Pairs of requests whose times overlap now.</summary>
    async Task<int> SharedTimesAsync()
    {
        var now = Now;
        var times = (await nodes.Store.Requests.WaitingAsync(default)).SelectMany(k => k.Request.TakenAt(now).Select(t => (k.Request.Conversation, Time: t))).ToList();
        return times.Sum(a => times.Count(b => string.CompareOrdinal(a.Conversation, b.Conversation) < 0 && a.Time.Overlaps(b.Time)));
    }

    static async Task<Patient> AskedAsync(Node node, IReadOnlyDictionary<string, string[]>? answers = null)
    {
        var patient = new Patient(node.Address);
        await Asking.PlanAsync(patient, answers);
        await Asking.AskAsync(patient, ("name", "Jo"), ("number", "07700 900123"));
        return patient;
    }

    static async Task RungAsync(StreamReader lines)
    {
        while (await lines.ReadLineAsync() is { } line && line != "event: changed")
        {
        }
    }

    static string StartOf(Clinic.Times.VisitTime time) => time.Start.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);

    static List<string> Starts(PageRead page) => [.. Start().Matches(page.Html).Select(m => m.Groups["start"].Value)];

    [GeneratedRegex("name=\"start\" value=\"(?<start>\\d+)\"")]
    private static partial Regex Start();

    [GeneratedRegex("Removed (?<count>\\d+) unfinished conversations")]
    private static partial Regex RemovedLine();

    [GeneratedRegex("one-time code: (?<code>[0-9A-Z ]{39})")]
    private static partial Regex Code();
}
