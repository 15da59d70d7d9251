using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Desk;

[Collection(OneClinicStaff.Name)]
public sealed class DeskTests(ClinicStaff staff)
{
    [Fact]
    public async Task Requests_stand_by_their_limit_and_never_by_arrival()
    {
        using var desk = await staff.NewAsync("desk");
        using var noHurry = await AskedAsync("Nora Early", Asking.SlowlyDuller);
        using var fortnight = await AskedAsync("Ludo Later", Asking.DullForWeeks);

        var page = await desk.Browser.ReadAsync("/staff/desk");

        Assert.InRange(page.Text.IndexOf("Ludo Later", StringComparison.Ordinal), 1, page.Text.IndexOf("Nora Early", StringComparison.Ordinal));
        Assert.Contains("13 d 23 h left", page.Text.Replace("14 d 0 h left", "13 d 23 h left", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_the_desk_and_clinicians_see_requests()
    {
        using var patient = await AskedAsync("Pia", Asking.SlowlyDuller);
        var address = "/staff/desk/" + await staff.Running.ConversationOfAsync(patient);
        using var clinician = await staff.NewAsync("clinician");
        using var others = await staff.NewAsync("author", "approver");

        Assert.Equal(HttpStatusCode.OK, (await clinician.Browser.ReadAsync(address)).Status);
        foreach (var page in (string[])["/staff/desk", "/staff/desk/events", address])
            Assert.Equal(HttpStatusCode.Forbidden, (await others.Browser.ReadAsync(page)).Status);
    }

    [Fact]
    public async Task The_handover_tells_danger_first_then_what_matters_and_reading_it_stands_in_the_trail()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = staff.Running.NewPatient();
        await patient.ReachPlanAsync(await patient.BeginAsync("left ear dull since <monday>"), Asking.SlowlyDuller);
        await Asking.AskAsync(patient, ("name", "Rosa <b>"), ("number", "07700 900123"), ("step-free", "yes"));
        var conversation = await staff.Running.ConversationOfAsync(patient);

        var page = await desk.Browser.ReadAsync("/staff/desk/" + conversation);

        string[] parts = ["Danger signs", "When it began", "In the patient's own words", "Matters for treating", "What the patient was told", "How to reach the patient"];
        var places = parts.Select(p => page.Text.IndexOf(p, StringComparison.Ordinal)).ToList();
        Assert.Equal(places.Order(), places);
        Assert.DoesNotContain(-1, places);
        Assert.Contains("left ear dull since &lt;monday&gt;", page.Html, StringComparison.Ordinal);
        Assert.Contains("Rosa &lt;b&gt;", page.Html, StringComparison.Ordinal);
        Assert.Contains("A way in without steps", page.Text, StringComparison.Ordinal);
        var row = (await staff.AuditAsync()).Last(e => e.Conversation == conversation);
        Assert.Equal((await staff.AccountOfAsync(desk.Name), AuditDeed.ReadConversation), (row.Who, row.Deed));
    }

    [Fact]
    public async Task A_time_is_offered_and_the_patient_takes_it_on_their_page()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = await AskedAsync("Omar", Asking.SlowlyDuller);
        var (address, page) = await OpenAsync(desk, patient);
        var start = System.Text.RegularExpressions.Regex.Match(page.Html, "name=\"start\" value=\"(?<at>[0-9]+)\"").Groups["at"].Value;

        var offered = await desk.SendAsync(address + "/time", page, ("start", start));
        Assert.Contains("offered this time", offered.Text, StringComparison.Ordinal);

        var request = await patient.ReadAsync("/visit");
        Assert.Contains("offers you a time", request.Text, StringComparison.Ordinal);
        await patient.PostAsync("/visit/confirm", request.FormTo("/visit/confirm"));
        var again = await desk.Browser.ReadAsync(address);
        Assert.Contains("Visit taken", again.Text, StringComparison.Ordinal);
        var accepted = await desk.SendAsync(address + "/accept", again);
        Assert.Contains("accepted", accepted.Text, StringComparison.Ordinal);
        Assert.Contains("expects you at the time of your visit", (await patient.ReadAsync("/visit")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_time_agreed_on_the_telephone_is_booked_at_once_and_a_form_sent_twice_is_one_step()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = await AskedAsync("Tess", Asking.SlowlyDuller);
        var (address, page) = await OpenAsync(desk, patient);
        var start = System.Text.RegularExpressions.Regex.Matches(page.Html, "name=\"start\" value=\"(?<at>[0-9]+)\"")[^1].Groups["at"].Value;

        await desk.SendAsync(address + "/time", page, ("start", start), ("agreed", "yes"));
        await desk.SendAsync(address + "/time", page, ("start", start), ("agreed", "yes"));

        var kept = await KeptAsync(patient);
        Assert.Equal(start, kept.Request.Booked!.Value.Start.ToUnixTimeMilliseconds().ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Single(kept.Request.Steps);
        Assert.DoesNotContain("If nobody has answered", (await patient.ReadAsync("/visit")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_call_is_noted_for_staff_only_and_sending_elsewhere_is_told_with_the_place()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = await AskedAsync("Vera", Asking.SlowlyDuller);
        var (address, page) = await OpenAsync(desk, patient);

        var without = await desk.SendAsync(address + "/telephone", page);
        Assert.Equal(422, (int)without.Status);
        var placeless = await desk.SendAsync(address + "/elsewhere", page, ("advice", "Take the plan with you."));
        Assert.Contains("Take the plan with you.</textarea>", placeless.Html, StringComparison.Ordinal);
        Assert.Contains("Write what was wrong.", (await desk.SendAsync(address + "/incident", page)).Text, StringComparison.Ordinal);
        await desk.SendAsync(address + "/telephone", page, ("note", "speaks softly"));
        var elsewhere = await desk.Browser.ReadAsync(address);
        Assert.Contains("speaks softly", elsewhere.Text, StringComparison.Ordinal);
        await desk.SendAsync(address + "/elsewhere", elsewhere, ("place", "general practice"), ("advice", "Ring them in the morning."));

        var request = await patient.ReadAsync("/visit");
        Assert.DoesNotContain("speaks softly", request.Text, StringComparison.Ordinal);
        Assert.Contains("Ring them in the morning.", request.Text, StringComparison.Ordinal);
        Assert.Contains("asks you to go to another place", request.Text, StringComparison.Ordinal);
        Assert.Contains("counts before this plan", (await patient.ReadAsync("/plan")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_desk_cannot_lower_a_level_a_clinician_can_and_the_patient_reads_the_reason()
    {
        using var desk = await staff.NewAsync("desk");
        using var clinician = await staff.NewAsync("clinician");
        using var patient = await AskedAsync("Wim", Asking.DullForWeeks);
        var (address, page) = await OpenAsync(desk, patient);

        var refused = await desk.SendAsync(address + "/level", page, ("level", "no hurry"), ("reason", "seen before"));
        Assert.Equal(422, (int)refused.Status);
        Assert.DoesNotContain("<option>no hurry", page.Html, StringComparison.Ordinal);
        var asClinician = await clinician.Browser.ReadAsync(address);
        Assert.Equal(422, (int)(await clinician.SendAsync(address + "/level", asClinician, ("level", "no hurry"))).Status);
        await clinician.SendAsync(address + "/level", asClinician, ("level", "no hurry"), ("reason", "Seen last week, the drum is fine."));

        var request = await patient.ReadAsync("/visit");
        Assert.Contains("Seen last week, the drum is fine.", request.Text, StringComparison.Ordinal);
        Assert.Contains("There is no time limit", request.Text, StringComparison.Ordinal);
        var conversation = address.Split('/')[^1];
        Assert.Contains((await staff.AuditAsync()).Where(e => e.Conversation == conversation), e => e.Deed == AuditDeed.LoweredLevel);
    }

    [Fact]
    public async Task A_request_raised_to_the_most_urgent_level_shows_the_patient_the_emergency_text()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = await AskedAsync("Xenia", Asking.SlowlyDuller);
        var (address, page) = await OpenAsync(desk, patient);

        await desk.SendAsync(address + "/level", page, ("level", "now"), ("reason", "Your speech is slurred on the telephone."));

        var request = await patient.ReadAsync("/visit");
        Assert.Contains("class=\"alarm\" role=\"alert\"", request.Html, StringComparison.Ordinal);
        Assert.Contains("Your speech is slurred on the telephone.", request.Text, StringComparison.Ordinal);
        Assert.Contains("Xenia", (await desk.Browser.ReadAsync("/staff/desk")).Text.Split("Answered")[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_starts_over_after_asking_still_waits_and_can_be_looked_at()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = await AskedAsync("Zoe Again", Asking.DullForWeeks);
        var over = await patient.ReadAsync("/start-over");
        await patient.PostAsync("/start-over", over.FormTo("/start-over"));

        var (_, page) = await OpenAsync(desk, patient);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("Zoe Again", page.Text, StringComparison.Ordinal);
        Assert.Contains("in two weeks", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_open_desk_is_told_of_a_new_request_and_gets_only_the_list()
    {
        using var desk = await staff.NewAsync("desk");
        using var asking = new HttpRequestMessage(HttpMethod.Get, "/staff/desk/events");
        using var events = await desk.Browser.StreamAsync(asking);
        using var lines = new StreamReader(await events.Content.ReadAsStreamAsync());
        Assert.Equal("text/event-stream", events.Content.Headers.ContentType!.MediaType);
        Assert.Equal(":", await lines.ReadLineAsync());

        using var patient = await AskedAsync("Yara", Asking.SlowlyDuller);

        string? line;
        do
        {
            line = await lines.ReadLineAsync();
        }
        while (line is { Length: 0 });
        Assert.Equal("event: changed", line);
        using var part = new HttpRequestMessage(HttpMethod.Get, "/staff/desk");
        part.Headers.Add("X-Part", "1");
        using var renewed = await desk.Browser.SendAsync(part);
        var html = await renewed.Content.ReadAsStringAsync();
        Assert.StartsWith("<p id=\"desk-count\">", html, StringComparison.Ordinal);
        Assert.Contains("Yara", html, StringComparison.Ordinal);
    }

    async Task<Patient> AskedAsync(string name, IReadOnlyDictionary<string, string[]> answers)
    {
        var patient = staff.Running.NewPatient();
        await Asking.PlanAsync(patient, answers);
        await Asking.AskAsync(patient, ("name", name), ("number", "07700 900123"));
        return patient;
    }

    async Task<(string Address, PageRead Page)> OpenAsync(Colleague colleague, Patient patient)
    {
        var address = "/staff/desk/" + await staff.Running.ConversationOfAsync(patient);
        return (address, await colleague.Browser.ReadAsync(address));
    }

    async Task<KeptRequest> KeptAsync(Patient patient) =>
        (await staff.Running.Services.GetRequiredService<IRequestStore>().FindAsync(await staff.Running.ConversationOfAsync(patient), CancellationToken.None))!;
}
