using System.IO.Compression;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Staff;
using EarHelp.Conformance.Records;
using EarHelp.Web.Systems;
using Microsoft.Playwright;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.CheckIns;

/// <summary>
/// The whole way, walked as each of them would: asked for ten minutes before a bank holiday, answered at the desk, seen, the plan read on a phone,
/// worse on day 3, back at the desk with a limit, given to a record system, and erased.
/// </summary>
public sealed partial class FromRequestToErasureTests(AskingService service) : IClassFixture<AskingService>
{
    const string Name = "Iris Vane", Email = "mo@home.example.org", Note = "The bell is hard for me to hear";

    /// <summary>On Easter Saturday, in winter time; the others are in summer time.</summary>
    static readonly DateTimeOffset Opening = new(2027, 3, 27, 9, 0, 0, TimeSpan.Zero), AfterVisit = new(2027, 3, 27, 10, 15, 0, TimeSpan.Zero),
        DayThree = new(2027, 3, 30, 9, 0, 0, TimeSpan.FromHours(1));

    static readonly Person Worse = Person.Swimmer with
    {
        Choices = Person.Swimmer.Choices.SetItem("ear signs", ["Pain", "Fluid or pus came out"]),
    };

    [Fact]
    public async Task A_patient_asks_is_seen_gets_worse_comes_back_to_the_desk_and_is_erased_without_a_trace()
    {
        await using var urgent = await Visit.BeginAsync(service, Device.Phone);
        await urgent.WholeWayAsync(Person.SuddenlyDull);
        await Expect(urgent.Page.GetByRole(AriaRole.Link, new() { Name = "Ask for a visit" })).ToHaveCountAsync(0);
        await Looks.WellAsync(urgent, "story-0-elsewhere");

        await using var patient = await Visit.BeginAsync(service, Device.Phone);
        await AskAsync(patient);

        await service.MoveToAsync(Opening);
        await using var kim = await Visit.BeginAsync(service, Device.Desktop);
        await JoinAsync(kim, service, await InvitedAsync(service, StaffRole.Clinician, StaffRole.Desk), "whole-story");
        var before = await AcceptAsync(kim);
        await patient.Page.ReloadAsync();
        await Expect(patient.Page.GetByText("expects you at the time of your visit")).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "story-4-accepted");

        await service.MoveToAsync(AfterVisit);
        await patient.Page.GotoAsync(await RecordAsync(kim));
        await PressAsync(patient, "Open my conversation");
        await FollowAsync(patient, "The plan after the visit");
        await Expect(patient.Page.GetByRole(AriaRole.Heading, new() { Name = "After the visit of" })).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "story-6-plan");

        await service.MoveToAsync(DayThree);
        await using var later = await Visit.BeginAsync(service, Device.Phone);
        await AnswerAsync(later);

        var after = await SeeAtDeskAsync(kim);
        await ValidateAsync(before, after);
        await EraseAsync(before);

        foreach (var gone in (Visit[])[later, patient])
        {
            await gone.Page.GotoAsync(new Uri(service.Address, "/letter").ToString());
            await Expect(gone.Page).ToHaveURLAsync(service.Address.ToString());
        }

        await LeavesNothingAsync(before, after);
        Assert.Empty(new[] { urgent, patient, kim, later }.SelectMany(v => v.Complaints));
    }

    static async Task AskAsync(Visit patient)
    {
        await patient.WholeWayAsync(Person.SlowlyDuller);
        await FollowAsync(patient, "Ask for a visit");
        await patient.Page.GetByLabel("E-mail address").FillAsync(Email);
        await patient.Page.GetByLabel("Name (you may leave this empty)", new() { Exact = true }).FillAsync(Name);
        await patient.Page.GetByLabel("A way in without steps").CheckAsync();
        await patient.Page.GetByLabel("A sign language interpreter").CheckAsync();
        await patient.Page.GetByLabel("Anything else about the visit").FillAsync(Note);
        await PressAsync(patient, "Check before sending");
        await PressAsync(patient, "Send the request");
        await FollowAsync(patient, "Choose a time");
        var offered = await patient.Page.Locator("button[name=start]").EvaluateAllAsync<string[]>("buttons => buttons.map(b => b.getAttribute('aria-label'))");
        await Looks.WellAsync(patient, "story-1-times");

        Assert.Contains("9:30 am on Saturday 27 March 2027", offered[0], StringComparison.Ordinal);
        string[] closed = ["Friday 26 March", "Sunday 28 March", "Monday 29 March"];
        Assert.DoesNotContain(offered, time => closed.Any(day => time.Contains(day, StringComparison.Ordinal)));
        await patient.Page.Locator("button[name=start]").First.ClickAsync();
        await PressAsync(patient, "Take this time");
        await Expect(patient.Page.GetByText("Your visit is at 9:30 am on Saturday 27 March 2027")).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "story-2-booked");
    }

    /// <returns>The conversation from which the visit was asked for.</returns>
    static async Task<string> AcceptAsync(Visit kim)
    {
        await FollowAsync(kim, "Requests");
        await FollowAsync(kim, Name);
        foreach (var helps in (string[])["A way in without steps", "A sign language interpreter", Note])
            await Expect(kim.Page.GetByText(helps).First).ToBeVisibleAsync();
        await PressAsync(kim, "Accept the visit");
        await Expect(kim.Page.GetByText("accepted.").First).ToBeVisibleAsync();
        await Looks.WellAsync(kim, "story-3-handover");
        return new Uri(kim.Page.Url).Segments[^1];
    }

    /// <returns>The private link to the plan.</returns>
    static async Task<string> RecordAsync(Visit kim)
    {
        await FollowAsync(kim, "Record a visit");
        await Expect(kim.Page.GetByRole(AriaRole.Heading, new() { Name = "Whose visit it was" })).ToBeVisibleAsync();
        await Expect(kim.Page.GetByText(Name, new() { Exact = true })).ToBeVisibleAsync();
        await kim.Page.GetByLabel("When the visit was").FillAsync("2027-03-27T09:30");
        await kim.Page.GetByLabel("Suction").First.CheckAsync();
        await kim.Page.GetByLabel("E-mail address for asking how it is").FillAsync(Email);
        await PressAsync(kim, "Record the visit");
        await Expect(kim.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Ask the patient whether messages may go to this address");
        await kim.Page.GetByLabel("The patient agrees to these messages").CheckAsync();
        await Looks.WellAsync(kim, "story-5-record");
        await PressAsync(kim, "Record the visit");
        return await kim.Page.Locator("#link").InnerTextAsync();
    }

    /// <summary>More pain and discharge, by the link of the message.</summary>
    async Task AnswerAsync(Visit later)
    {
        var message = service.Mail.Taken()[^1].Text.Replace("=\r\n", "", StringComparison.Ordinal);
        await later.Page.GotoAsync(new Uri(service.Address, LinkIn().Match(message).Value).ToString());
        await Looks.WellAsync(later, "story-7-link");
        await PressAsync(later, "Open the question");
        await Looks.WellAsync(later, "story-8-question");
        await PressAsync(later, "Something is worse, new or not right");
        await later.WholeWayAsync(Worse);
        await Expect(later.Page.GetByText("The clinic has your answers")).ToBeVisibleAsync();
        await Looks.WellAsync(later, "story-9-worse");
    }

    /// <returns>The conversation after the visit.</returns>
    static async Task<string> SeeAtDeskAsync(Visit kim)
    {
        await FollowAsync(kim, "Requests");
        var row = kim.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = "asked how it is, and not well" });
        await Expect(row).ToContainTextAsync("within");
        await Expect(row).ToContainTextAsync("left)");
        await Looks.WellAsync(kim, "story-10-desk");
        await row.GetByRole(AriaRole.Link).First.ClickAsync();
        await Expect(kim.Page.GetByText(Email).First).ToBeVisibleAsync();
        foreach (var told in (string[])["Left ear: Suction", "Pain (left ear)", "Discharge (left ear)"])
            await Expect(kim.Page.GetByText(told).First).ToBeVisibleAsync();
        await Looks.WellAsync(kim, "story-11-handover");
        return new Uri(kim.Page.Url).Segments[^1];
    }

    /// <summary>As the clinic's own record system reads it: each conversation, and the day of the visit.</summary>
    async Task ValidateAsync(string before, string after)
    {
        var (_, token) = await service.Part<SystemAccess>().LetReadAsync("terminal", "Records", CancellationToken.None);
        using var system = new HttpClient { BaseAddress = service.Address, DefaultRequestHeaders = { Authorization = new("Bearer", token) } };
        var asked = await system.GetStringAsync(new Uri("/api/clinic/records/of/" + before, UriKind.Relative));
        foreach (var kind in (string[])["QuestionnaireResponse", "Patient", "ServiceRequest", "Appointment", "CarePlan", "Communication", "Provenance"])
            Assert.Contains($"\"resourceType\":\"{kind}\"", asked.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        await TwoValidators.FindNoFaultAsync(asked);
        await TwoValidators.FindNoFaultAsync(await system.GetStringAsync(new Uri("/api/clinic/records/of/" + after, UriKind.Relative)));
        await TwoValidators.FindNoFaultAsync(await system.GetStringAsync(new Uri("/api/clinic/records/day/2027-03-27", UriKind.Relative)));
    }

    async Task EraseAsync(string conversation)
    {
        using var socket = service.Socket();
        using var answer = await socket.PostAsync(new Uri("/control/erase/" + conversation, UriKind.Relative), null);
        Assert.True(answer.IsSuccessStatusCode);
    }

    /// <summary>Every row of every part of the store, and every byte of its files: the identifiers stand in the audit trail and in the list of who was erased only.</summary>
    async Task LeavesNothingAsync(params string[] conversations)
    {
        using var socket = service.Socket();
        await using var packed = await socket.GetStreamAsync(new Uri("/control/backup", UriKind.Relative));
        using var lines = new StreamReader(new GZipStream(packed, CompressionMode.Decompress));
        var rows = (await lines.ReadToEndAsync()).Split('\n').Skip(1).Where(l => l.Length > 0 && !l.StartsWith("end ", StringComparison.Ordinal)).Select(Opened).ToList();
        string[] words = [Name, Email, Note, "Vane"];

        Assert.Contains(rows, r => r.Part == "audit" && r.Text.Contains(conversations[0], StringComparison.Ordinal));
        Assert.All(rows, r => Assert.DoesNotContain(words, w => r.Text.Contains(w, StringComparison.Ordinal)));
        Assert.All(rows.Where(r => conversations.Any(c => r.Text.Contains(c, StringComparison.Ordinal))), r => Assert.Equal("audit", r.Part));
        Assert.All(rows.Where(r => r.Part == "audit"), r => Assert.Matches(OnlyWhoWhenAndWhat(), r.Text));
        string[] empty = ["requests", "visits", "follow_ups", "incidents", "callers"];
        Assert.DoesNotContain(rows, r => empty.Contains(r.Part));
        foreach (var file in Directory.EnumerateFiles(service.Data, "*", SearchOption.AllDirectories).Where(f => Path.GetExtension(f) is not (".sock" or ".lock")))
        {
            var bytes = await ReadAsync(file);
            Assert.DoesNotContain(words, w => bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(w)) >= 0);
        }
    }

    /// <summary>A row of a backup with the text of its bytes.</summary>
    static (string Part, string Text) Opened(string line)
    {
        var parts = line.Split(' ', 2);
        using var row = JsonDocument.Parse(parts[1]);
        var values = row.RootElement.EnumerateArray().Where(v => v.ValueKind == JsonValueKind.String).ToList();
        return parts[0] == "audit"
            ? (parts[0], Encoding.UTF8.GetString(values[0].GetBytesFromBase64()))
            : (parts[0], string.Join(' ', values.Select(v => v.TryGetBytesFromBase64(out var bytes) ? v.GetString() + Encoding.UTF8.GetString(bytes) : v.GetString())));
    }

    static async Task<byte[]> ReadAsync(string file)
    {
        await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var all = new byte[stream.Length];
        await stream.ReadExactlyAsync(all);
        return all;
    }

    [GeneratedRegex("/check-in/[\\w-]{43}")]
    private static partial Regex LinkIn();

    [GeneratedRegex("^\\{\"at\":\"[^\"]+\",\"who\":\"[\\w-]+\",\"deed\":\"\\w+\"(,\"(conversation|account)\":\"[\\w-]+\")*\\}$")]
    private static partial Regex OnlyWhoWhenAndWhat();
}
