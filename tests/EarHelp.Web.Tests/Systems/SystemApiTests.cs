using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;

namespace EarHelp.Web.Tests.Systems;

/// <summary>The clinic's own systems read requests, visits and records by a token, as the description says.</summary>
[Collection(OneClinicStaff.Name)]
public sealed class SystemApiTests(ClinicStaff staff)
{
    [Fact]
    public async Task The_description_is_read_by_a_library_for_OpenAPI_without_a_fault()
    {
        using var system = new ReadingSystem(staff.Running, null);

        var description = await system.GetAsync("/openapi.json");

        var read = OpenApiDocument.Parse(description.Body, "json");
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Empty(read.Diagnostic.Warnings);
        Assert.Equal(OpenApiSpecVersion.OpenApi3_1, read.Diagnostic.SpecificationVersion);
        Assert.All(read.Document!.Paths.SelectMany(p => p.Value.Operations!), o => Assert.Equal(HttpMethod.Get, o.Key));
    }

    [Fact]
    public async Task Every_path_answers_as_the_description_says_and_stands_in_the_audit_trail_before()
    {
        var (asked, seen) = await SomebodyAsync();
        using var system = new ReadingSystem(staff.Running, await TokenAsync("Practice records"));
        var described = new DescribedApi((await system.GetAsync("/openapi.json")).Body);
        var day = ClinicStaff.Now.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        (string Path, string Asked, AuditDeed Deed, string? Whose)[] all =
        [
            ("/requests", "/requests?limit=200", AuditDeed.ListedRequests, null),
            ("/requests/{conversation}", $"/requests/{asked}", AuditDeed.ReadConversation, asked),
            ("/visits", "/visits", AuditDeed.ListedVisits, null),
            ("/visits/{conversation}", $"/visits/{seen}", AuditDeed.ReadConversation, seen),
            ("/records/of/{conversation}", $"/records/of/{asked}", AuditDeed.WroteRecords, asked),
            ("/records/day/{day}", $"/records/day/{day}", AuditDeed.WroteRecords, null),
        ];
        Assert.Equal(described.Paths.Order(), all.Select(a => a.Path).Append("/openapi.json").Order());

        foreach (var (path, address, deed, whose) in all)
        {
            var before = (await staff.AuditAsync()).Count;
            var answer = await system.GetAsync(address);
            Assert.Equal((address, HttpStatusCode.OK), (address, answer.Status));
            Assert.Empty(described.FaultsOf(path, 200, answer.MediaType, answer.Body));
            var entry = Assert.Single((await staff.AuditAsync()).Skip(before));
            Assert.Equal((deed, whose), (entry.Deed, entry.Conversation));
            Assert.Equal("Practice records", (await staff.Running.Services.GetRequiredService<IStaffStore>().FindAsync(entry.Who, default))!.ShownName);
        }

        var one = JsonNode.Parse((await system.GetAsync($"/requests/{asked}")).Body)!;
        Assert.Equal(("Zita Marl", "text-message", true), ((string)one["contact"]!["name"]!, (string)one["contact"]!["reachBy"]!, (bool)one["contact"]!["stepFree"]!));
        Assert.Contains("\"finding\":\"suction\",\"ear\":\"left\"", (await system.GetAsync($"/visits/{seen}")).Body, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/requests?limit=0", 400, "/requests", "whole number from 1 to 200")]
    [InlineData("/visits?limit=many", 400, "/visits", "whole number from 1 to 200")]
    [InlineData("/requests/nobody", 404, "/requests/{conversation}", "no such conversation")]
    [InlineData("/visits/nobody", 404, "/visits/{conversation}", "no such conversation")]
    [InlineData("/records/of/nobody", 404, "/records/of/{conversation}", "no such conversation")]
    [InlineData("/records/day/yesterday", 400, "/records/day/{day}", "2026-11-20")]
    public async Task What_cannot_be_answered_is_told_as_problem_details_with_the_mend(string address, int status, string path, string detail)
    {
        using var system = new ReadingSystem(staff.Running, await TokenAsync("Asks wrongly"));
        var described = new DescribedApi((await system.GetAsync("/openapi.json")).Body);

        var answer = await system.GetAsync(address);

        Assert.Equal((status, "application/problem+json"), ((int)answer.Status, answer.MediaType));
        Assert.Empty(described.FaultsOf(path, status, answer.MediaType, answer.Body));
        Assert.Contains(detail, answer.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_address_that_is_not_there_and_a_method_that_changes_are_refused_as_problem_details()
    {
        using var system = new ReadingSystem(staff.Running, null);

        var nowhere = await system.GetAsync("/people");
        var post = await system.GetAsync("/requests", method: HttpMethod.Post);

        Assert.Equal((HttpStatusCode.NotFound, "application/problem+json"), (nowhere.Status, nowhere.MediaType));
        Assert.Equal((HttpStatusCode.MethodNotAllowed, "application/problem+json"), (post.Status, post.MediaType));
    }

    [Theory]
    [InlineData(null, "Bearer")]
    [InlineData("guessed", "Bearer error=\"invalid_token\"")]
    public async Task Without_a_token_that_opens_something_nothing_is_read(string? token, string challenge)
    {
        using var system = new ReadingSystem(staff.Running, token);
        var before = (await staff.AuditAsync()).Count;

        foreach (var address in (string[])["/requests", "/visits", "/records/day/2026-11-26", "/requests/x"])
        {
            var answer = await system.GetAsync(address);
            Assert.Equal((HttpStatusCode.Unauthorized, challenge), (answer.Status, answer.Challenge));
            Assert.Equal("application/problem+json", answer.MediaType);
        }

        Assert.Equal(before, (await staff.AuditAsync()).Count);
    }

    [Fact]
    public async Task Pages_follow_each_other_without_a_gap_and_what_is_known_is_not_sent_again()
    {
        for (var i = 0; i < 3; i++)
            await SomebodyAsync();
        using var system = new ReadingSystem(staff.Running, await TokenAsync("Reads on"));
        var all = Conversations((await system.GetAsync("/requests?limit=200")).Body);

        var paged = new List<string>();
        for (string? next = ""; next is not null;)
        {
            var page = await system.GetAsync($"/requests?limit=2&after={Uri.EscapeDataString(next)}");
            var items = Conversations(page.Body);
            Assert.True(items.Count <= 2);
            paged.AddRange(items);
            next = (string?)JsonNode.Parse(page.Body)!["next"];
        }

        Assert.Equal(all, paged);
        foreach (var address in (string[])["/requests", $"/records/of/{all[0]}"])
        {
            var first = await system.GetAsync(address);
            var again = await system.GetAsync(address, known: first.Tag);
            Assert.Equal((HttpStatusCode.NotModified, string.Empty), (again.Status, again.Body));
        }

        var known = await system.GetAsync("/requests");
        await SomebodyAsync();
        Assert.Equal(HttpStatusCode.OK, (await system.GetAsync("/requests", known: known.Tag)).Status);
    }

    [Fact]
    public async Task An_administrator_makes_a_token_of_which_only_the_hash_is_kept_and_ends_it()
    {
        var token = await TokenAsync("Short-lived");
        using var system = new ReadingSystem(staff.Running, token);
        Assert.Equal(HttpStatusCode.OK, (await system.GetAsync("/visits")).Status);
        var account = (await staff.Running.Services.GetRequiredService<IStaffStore>().AllAsync(default)).Single(a => a.ShownName == "Short-lived");
        Assert.DoesNotContain(token, System.Text.Encoding.UTF8.GetString(Clinic.Records.StaffJson.Write(account)), StringComparison.Ordinal);
        var page = await staff.Administrator.Browser.ReadAsync($"/staff/accounts/{account.Id}");
        Assert.Contains("A system of the clinic", (await staff.Administrator.Browser.ReadAsync("/staff/accounts")).Text, StringComparison.Ordinal);
        Assert.DoesNotContain("/code\"", page.Html, StringComparison.Ordinal);
        var asPerson = await staff.Administrator.Browser.PostAsync($"/staff/accounts/{account.Id}/code", page.FormTo($"/staff/systems/{account.Id}/end"));
        Assert.Equal(HttpStatusCode.NotFound, asPerson.Status);

        await staff.Administrator.SendAsync($"/staff/systems/{account.Id}/end", page);

        Assert.Equal(HttpStatusCode.Unauthorized, (await system.GetAsync("/visits")).Status);
        AuditDeed[] deeds = [AuditDeed.LetSystemRead, AuditDeed.AccountClosed];
        Assert.Equal(deeds, (await staff.AuditAsync()).Where(e => e.Account == account.Id).Select(e => e.Deed));
    }

    [Fact]
    public async Task Only_an_administrator_makes_a_token()
    {
        using var desk = await staff.NewAsync("desk");
        var page = await desk.Browser.ReadAsync("/staff/me");
        var form = Regex.Match(page.Html, "name=\"token\" value=\"(?<token>[^\"]+)\"").Groups["token"].Value;

        var refused = await desk.Browser.PostAsync("/staff/systems", [KeyValuePair.Create("token", form), KeyValuePair.Create("system", "Sly")]);

        Assert.Equal(HttpStatusCode.Forbidden, refused.Status);
        Assert.DoesNotContain(await staff.Running.Services.GetRequiredService<IStaffStore>().AllAsync(default), a => a.ShownName == "Sly");
    }

    [Fact]
    public async Task A_system_that_asks_too_often_is_told_how_long_to_wait_and_another_one_is_not()
    {
        using var eager = new ReadingSystem(staff.Running, await TokenAsync("Eager"));
        using var calm = new ReadingSystem(staff.Running, await TokenAsync("Calm"));

        SystemRead last = await eager.GetAsync("/visits/x");
        for (var i = 0; i < 130 && last.Status != HttpStatusCode.TooManyRequests; i++)
            last = await eager.GetAsync("/visits/x");

        Assert.Equal((HttpStatusCode.TooManyRequests, "60", "application/problem+json"), (last.Status, last.RetryAfter, last.MediaType));
        Assert.Equal(HttpStatusCode.NotFound, (await calm.GetAsync("/visits/x")).Status);
    }

    /// <summary>Somebody who asks for a visit, and somebody who was seen.</summary>
    async Task<(string Asked, string Seen)> SomebodyAsync()
    {
        using var patient = staff.Running.NewPatient();
        await Asking.PlanAsync(patient);
        await Asking.AskAsync(patient, ("name", "Zita Marl"), ("reach", "text"), ("number", "07700 900123"), ("step-free", "yes"));
        using var clinician = await staff.NewAsync("clinician");
        var form = await clinician.Browser.ReadAsync("/staff/visits/new");
        var when = ClinicStaff.Now.AddHours(-1).ToString("yyyy-MM-dd'T'HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        var visits = staff.Running.Services.GetRequiredService<IVisitStore>();
        var before = (await visits.AllAsync(default)).Select(v => v.Conversation).ToHashSet();
        await clinician.SendAsync("/staff/visits", form, ("when", when), ("found", "left:suction"));
        return (await staff.Running.ConversationOfAsync(patient), (await visits.AllAsync(default)).Single(v => !before.Contains(v.Conversation)).Conversation);
    }

    async Task<string> TokenAsync(string name)
    {
        var page = await staff.Administrator.SendAsync("/staff/systems", await staff.Administrator.Browser.ReadAsync("/staff/accounts"), ("system", name));
        return Regex.Match(page.Html, "id=\"token\">(?<token>[^<]+)<").Groups["token"].Value;
    }

    static List<string> Conversations(string body) => [.. JsonNode.Parse(body)!["items"]!.AsArray().Select(i => (string)i!["conversation"]!)];
}
