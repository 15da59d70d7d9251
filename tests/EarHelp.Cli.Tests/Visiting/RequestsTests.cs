using EarHelp.Cli.Tests.Commands;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Cli.Tests.Signing;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Storage;
using NodaTime;

namespace EarHelp.Cli.Tests.Visiting;

public sealed class RequestsTests : IDisposable
{
    static readonly Instant Asked = Instant.FromUtc(2026, 11, 20, 9, 0);

    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task Lists_who_waits_the_nearest_limit_first_from_the_store_and_from_a_running_service()
    {
        var (first, second, third) = (await TalkAsync(), await TalkAsync(), await TalkAsync());
        await using (var store = LiteTurnStore.Open(_data.FullName, new StoreOptions()))
        {
            await AskAsync(store, first, new Urgency("no hurry", 5, null, null), ContactDetails.Empty with { Email = "pat@hallowmere.example" });
            await AskAsync(store, second, new Urgency("within three days", 3, Asked + Duration.FromDays(3), Asked + Duration.FromHours(2)), ContactDetails.Empty with
            {
                Name = "Ida Voss",
                ReachBy = ReachBy.TextMessage,
                Number = "07700 900123",
                Needs = VisitNeeds.None with { StepFree = true, Note = "Not on\nFridays" },
            });
            await AskAsync(store, third, new Urgency("within a day", 2, Asked, Asked), ContactDetails.Empty with { Number = "07700 900124" });
            await BookAsync(store, third, new VisitTime(Asked + Duration.FromHours(1), Asked + Duration.FromHours(2)));
        }

        var alone = await RequestsAsync();
        var json = await RequestsAsync("--json");

        Assert.Equal((0, string.Empty), (alone.ExitCode, alone.Error));
        Assert.Equal([third, second, first], alone.Out.Split('\n').Where(l => l.Contains("conversation ", StringComparison.Ordinal)).Select(l => l.Split("conversation ")[1]));
        Assert.Contains("within three days: seen by 2026-11-23T09:00:00Z, 2 days left; goes elsewhere if not answered by 2026-11-20T11:00:00Z, 90 minutes left", alone.Out, StringComparison.Ordinal);
        Assert.Contains("within a day: seen by 2026-11-20T09:00:00Z, 30 minutes LATE", alone.Out, StringComparison.Ordinal);
        Assert.Contains("  visit 2026-11-20T10:00:00Z to 2026-11-20T11:00:00Z, AFTER THE LIMIT\n", alone.Out, StringComparison.Ordinal);
        Assert.Contains("  for Ida Voss  by text message: 07700 900123  -\n  helps: way in without steps\n  note: Not on Fridays\n", alone.Out, StringComparison.Ordinal);
        Assert.EndsWith("3 requests wait.\n", alone.Out, StringComparison.Ordinal);
        await using var service = await ServingProcess.StartAsync(Repository.Root, _data.FullName);
        Assert.Equal(Waiting(json.Out), Waiting((await RequestsAsync("--json")).Out));
    }

    /// <summary>Whose requests, how urgent, and how to reach them; what a running service has done about them meanwhile is left out.</summary>
    static IEnumerable<(string Conversation, Urgency Urgency, ContactDetails? Contact)> Waiting(string json) =>
        RequestJson.ReadAll(System.Text.Encoding.UTF8.GetBytes(json)).Select(k => (k.Request.Conversation, k.Request.Urgency, k.Contact));

    static async Task AskAsync(LiteTurnStore store, string conversation, Urgency urgency, ContactDetails contact) =>
        await store.Requests.PutAsync(VisitRequest.New(conversation, "form", urgency, Asked), contact, CancellationToken.None);

    static async Task BookAsync(LiteTurnStore store, string conversation, VisitTime time)
    {
        var (request, contact) = (await store.Requests.FindAsync(conversation, CancellationToken.None))!;
        await store.Requests.PutAsync(request.Holding(time, Asked, "hold", Asked), contact, CancellationToken.None);
        await store.Requests.PutAsync(request.Holding(time, Asked, "hold", Asked).Confirmed("confirm", Asked), contact, CancellationToken.None);
    }

    async Task<string> TalkAsync() =>
        (await Called.WithInputAsync(":quit\n", "talk", "--data", _data.FullName)).Error.Split('\n')[0].Split(' ')[1].Trim();

    Task<Called> RequestsAsync(params string[] asked) => Called.WithAsync(["requests", .. asked, "--data", _data.FullName]);
}
