using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using NodaTime;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Nodes;

public sealed partial class TwoNodesTests(TwoNodes nodes, ITestOutputHelper output) : IClassFixture<TwoNodes>
{
    const int People = 16;

    [Fact]
    public async Task Staff_who_signed_in_at_one_node_work_at_the_other_and_hear_there_within_a_second_of_a_request()
    {
        using var here = new Colleague(new Patient(nodes.First.Address), "ada");
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

        await rung.WaitAsync(TimeSpan.FromSeconds(1));
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
    public async Task A_clinic_that_closes_at_once_at_one_node_offers_nothing_at_the_other_within_a_second()
    {
        using var patient = await AskedAsync(nodes.First);
        Assert.NotEmpty(Starts(await patient.ReadAsync("/visit/times")));
        var now = SystemClock.Instance.GetCurrentInstant();
        var closing = new KeptClosing(now, now.InUtc().Date.PlusDays(60), null);

        await nodes.Store.Closings.PutAsync(closing, default);
        var isClosed = await TwoNodes.WithinASecondAsync(async () => Starts(await patient.ReadAsync("/visit/times")).Count == 0);
        await nodes.Store.Closings.PutAsync(closing with { LiftedAt = SystemClock.Instance.GetCurrentInstant() }, default);

        Assert.True(isClosed);
        Assert.True(await TwoNodes.WithinASecondAsync(async () => Starts(await patient.ReadAsync("/visit/times")).Count > 0));
    }

    [Fact]
    public async Task Conversations_go_on_while_a_node_is_killed_started_again_and_the_other_paused_and_no_acknowledged_turn_is_lost()
    {
        var acknowledged = new Acknowledged();
        using var ending = new CancellationTokenSource();
        var people = Enumerable.Range(0, People).Select(_ => Task.Run(() => TalkAsync(acknowledged, ending.Token))).ToArray();

        await acknowledged.MoreAsync(100);
        await nodes.First.KillAsync();
        await acknowledged.MoreAsync(100);
        await nodes.First.StartAsync();
        await acknowledged.MoreAsync(100);
        await nodes.Second.PauseAsync();
        await acknowledged.MoreAsync(100);
        await nodes.Second.ResumeAsync();
        await acknowledged.MoreAsync(100);
        await ending.CancelAsync();
        await Task.WhenAll(people);

        await AuditAsync(acknowledged);
    }

    /// <summary>Looks at every conversation that the store keeps.</summary>
    async Task AuditAsync(Acknowledged acknowledged)
    {
        var kept = new Dictionary<string, int>(StringComparer.Ordinal);
        var (turns, differing) = (0, 0);
        var conversations = await nodes.Store.ConversationsAsync(default);
        foreach (var conversation in conversations)
        {
            // Loading refuses a conversation whose chain of hashes is not whole.
            foreach (var turn in await nodes.Store.LoadAsync(conversation, default))
            {
                turns++;
                kept[turn.TurnId] = kept.GetValueOrDefault(turn.TurnId) + 1;
            }

            using var replayed = JsonDocument.Parse(await nodes.Second.AskAsync(HttpMethod.Post, "control/replay/" + conversation));
            differing += replayed.RootElement.EnumerateArray().Count(t => t.GetProperty("out").GetRawText() != t.GetProperty("again").GetRawText());
        }

        var lost = acknowledged.Forms.Count(f => kept.GetValueOrDefault(f) == 0);
        var doubled = acknowledged.Forms.Count(f => kept.GetValueOrDefault(f) > 1);
        output.WriteLine(
            $"{conversations.Length} conversations with {turns} turns, all chains whole; {acknowledged.Forms.Count} forms acknowledged, {acknowledged.Refused} times not: "
            + $"{lost} lost, {doubled} doubled; {differing} turns replayed differently; {await SharedTimesAsync()} times with two holders.");
        Assert.Equal((0, 0, 0), (lost, doubled, differing));
        Assert.True(acknowledged.Refused > 0, "The faults were not felt.");
    }

    /// <summary>One conversation after the other; who gets no answer, or the emergency page, presses the button again.</summary>
    async Task TalkAsync(Acknowledged acknowledged, CancellationToken ending)
    {
        while (!ending.IsCancellationRequested)
        {
            using var patient = nodes.Proxy.NewPatient();
            var first = await UntilAnsweredAsync(() => patient.ReadAsync("/"));
            var page = await UntilAnsweredAsync(() => patient.BeginAtAsync(first));
            while (!page.IsPlan && !ending.IsCancellationRequested)
            {
                var asked = page;
                page = await UntilAnsweredAsync(() => patient.GoOnAsync(asked, Asking.SlowlyDuller));
                acknowledged.Add((asked.Screen == "read back" ? asked.FormTo("/confirm") : asked.Hidden.ToDictionary())["turn"]);
            }
        }

        async Task<PageRead> UntilAnsweredAsync(Func<Task<PageRead>> send)
        {
            while (true)
            {
                try
                {
                    if (await send() is { Status: HttpStatusCode.OK } page && (page.IsPlan || page.Screen.Length > 0))
                        return page;
                }
                catch (HttpRequestException)
                {
                    // As a browser that shows its own page.
                }

                acknowledged.Refuse();
                await Task.Delay(20, CancellationToken.None);
            }
        }
    }

    /// <summary>Pairs of requests whose times overlap now.</summary>
    async Task<int> SharedTimesAsync()
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        var times = (await nodes.Store.Requests.WaitingAsync(default)).SelectMany(k => k.Request.TakenAt(now).Select(t => (k.Request.Conversation, Time: t))).ToList();
        return times.Sum(a => times.Count(b => string.CompareOrdinal(a.Conversation, b.Conversation) < 0 && a.Time.Overlaps(b.Time)));
    }

    static async Task<Patient> AskedAsync(Node node)
    {
        var patient = new Patient(node.Address);
        await Asking.PlanAsync(patient);
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

    [GeneratedRegex("one-time code: (?<code>[0-9A-Z ]{39})")]
    private static partial Regex Code();
}
