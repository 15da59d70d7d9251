using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Triage.Answers;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.AfterVisit;

/// <summary>A clinician records a visit; the patient opens the link, and nothing that was found is asked or cleared.</summary>
[Collection(OneClinicStaff.Name)]
public sealed class RecordTests(ClinicStaff staff)
{
    static readonly string Now = ClinicStaff.Now.AddHours(-1).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);

    [Fact]
    public async Task A_hole_that_was_recorded_shuts_the_drops_of_whoever_opens_the_link_and_a_replay_tells_the_same()
    {
        using var without = staff.Running.NewPatient();
        await without.ReachPlanAsync(await without.BeginAsync(), Asking.SlowlyDuller);
        Assert.Contains((await ToldAsync(without)).Advice, a => a.Id == "softening drops");
        using var clinician = await staff.NewAsync("clinician");

        var saved = await RecordAsync(clinician, ("found", "left:hole"));
        using var patient = staff.Running.NewPatient();
        var opened = await OpenAsync(patient, saved);
        Assert.Contains("Known from the visit, and not asked again", opened.Text, StringComparison.Ordinal);
        var pages = await patient.WalkAsync(await patient.AnswerAsync(opened, ("a:about whom", "me"), ("n:age", "34"), ("a:where now", "near the clinic")), Asking.SlowlyDuller);

        Assert.DoesNotContain(pages, p => p.Screen == "the cleaning" && p.Html.Contains("a:hole found", StringComparison.Ordinal));
        Assert.Contains("recorded at the visit", pages[^1].Text + (await patient.ReadAsync("/letter")).Text, StringComparison.Ordinal);
        var conversation = await staff.Running.ConversationOfAsync(patient);
        Assert.DoesNotContain((await ToldAsync(patient)).Advice, a => a.Id == "softening drops");
        Assert.Empty((await staff.Running.Services.GetRequiredService<TurnTaking>().ReplayAsync(conversation, default)).Differing);
        Assert.Contains(await staff.AuditAsync(), e => e.Deed == AuditDeed.RecordedVisit && e.Conversation == conversation);
    }

    [Fact]
    public async Task A_link_works_once_and_the_desk_can_make_another()
    {
        using var clinician = await staff.NewAsync("clinician");
        using var desk = await staff.NewAsync("desk");
        var saved = await RecordAsync(clinician, ("found", "right:suction"));
        using var first = staff.Running.NewPatient();
        using var second = staff.Running.NewPatient();
        await OpenAsync(first, saved);
        var page = await second.ReadAsync(LinkIn(saved));
        Assert.Equal(HttpStatusCode.NotFound, (await second.PostAsync("/back", page.FormTo("/back"))).Status);

        var list = await desk.Browser.ReadAsync("/staff/visits");
        var conversation = await staff.Running.ConversationOfAsync(first);
        var again = await desk.SendAsync($"/staff/visits/{conversation}/link", list);

        Assert.Equal("/letter", (await OpenAsync(second, again)).Address.AbsolutePath);
        Assert.Contains("Right ear: Suction", list.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_patient_reads_the_plan_after_the_visit_by_day_and_takes_its_days_into_a_calendar()
    {
        using var clinician = await staff.NewAsync("clinician");
        var saved = await RecordAsync(clinician, ("found", "left:suction"), ("found", "left:wax left on purpose"), ("found", "person:dizzy in the chair"));
        Assert.Contains("<svg class=\"code\" role=\"img\"", saved.Html, StringComparison.Ordinal);
        using var patient = staff.Running.NewPatient();
        var letter = await OpenAsync(patient, saved);
        Assert.Contains("href=\"/aftercare\"", letter.Html, StringComparison.Ordinal);

        var plan = await patient.ReadAsync("/aftercare");
        var large = await patient.ReadAsync("/aftercare?size=large");
        var calendar = await patient.ReadAsync("/aftercare/calendar");

        foreach (var said in (string[])["After the visit of", "Left ear: Wax was taken out by suction.", "What to mind, and until when", "Ask the clinic when to come again for the wax that was left in.", "Get help for any of these in the 14 days", "Answer the questions"])
            Assert.Contains(said, plan.Text, StringComparison.Ordinal);
        Assert.Contains("class=\"plan large\"", large.Html, StringComparison.Ordinal);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", calendar.Html, StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:", calendar.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("ear", calendar.Html.Replace("earhelp", "", StringComparison.OrdinalIgnoreCase), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Nobody_without_a_visit_has_a_plan_after_one()
    {
        using var patient = staff.Running.NewPatient();
        Assert.Equal("/", (await patient.ReadAsync("/aftercare")).Address.AbsolutePath);
        await patient.AnswerAsync(await patient.BeginAsync(), ("a:about whom", "me"), ("n:age", "34"), ("a:where now", "near the clinic"));

        Assert.Equal("/letter", (await patient.ReadAsync("/aftercare")).Address.AbsolutePath);
        Assert.DoesNotContain("/aftercare", (await patient.ReadAsync("/letter")).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_a_clinician_records_a_visit()
    {
        using var desk = await staff.NewAsync("desk");

        Assert.Equal(HttpStatusCode.Forbidden, (await desk.Browser.ReadAsync("/staff/visits/new")).Status);
        Assert.Equal(HttpStatusCode.OK, (await desk.Browser.ReadAsync("/staff/visits")).Status);
        using var author = await staff.NewAsync("author");
        Assert.Equal(HttpStatusCode.Forbidden, (await author.Browser.ReadAsync("/staff/visits")).Status);
    }

    [Fact]
    public async Task What_was_ticked_stays_after_a_fault_and_a_form_sent_twice_is_one_visit()
    {
        using var clinician = await staff.NewAsync("clinician");
        var form = await clinician.Browser.ReadAsync("/staff/visits/new");

        var nothing = await SendAsync(clinician, form, Now);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nothing.Status);
        Assert.Contains("Nothing is ticked.", nothing.Text, StringComparison.Ordinal);
        var noTime = await SendAsync(clinician, nothing, "yesterday", ("found", "left:water"), ("found", "person:allergy to nuts"));
        Assert.Contains("value=\"left:water\" checked", noTime.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"person:allergy to nuts\" checked", noTime.Html, StringComparison.Ordinal);

        var saved = await SendAsync(clinician, noTime, Now, ("found", "left:water"));
        var again = await SendAsync(clinician, noTime, Now, ("found", "left:water"));
        var other = await SendAsync(clinician, noTime, Now, ("found", "left:hole"));

        Assert.NotEqual(LinkIn(saved), LinkIn(again));
        using var patient = staff.Running.NewPatient();
        await OpenAsync(patient, again);
        var conversation = await staff.Running.ConversationOfAsync(patient);
        Assert.Single(await staff.Running.Services.GetRequiredService<IVisitStore>().AllAsync(default), v => v.Conversation == conversation);
        Assert.Contains("This form was sent before and said something else.", other.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_visit_that_was_asked_for_is_erased_with_its_request()
    {
        using var patient = staff.Running.NewPatient();
        await patient.ReachPlanAsync(await patient.BeginAsync(), Asking.SlowlyDuller);
        await Asking.AskAsync(patient, ("name", "Ole Ferry"), ("number", "07700 900126"));
        var before = await staff.Running.ConversationOfAsync(patient);
        using var clinician = await staff.NewAsync("clinician");
        var handover = await clinician.Browser.ReadAsync("/staff/desk/" + before);
        var form = await clinician.Browser.ReadAsync(Regex.Match(handover.Html, "/staff/visits/new[^\"]+").Value);
        var saved = await SendAsync(clinician, form, Now, ("found", "left:suction"));
        using var after = staff.Running.NewPatient();
        await OpenAsync(after, saved);

        using var socket = staff.Running.Socket();
        await socket.PostAsync(new Uri("/control/erase/" + before, UriKind.Relative), null);

        Assert.Equal("/", (await after.ReadAsync("/letter")).Address.AbsolutePath);
    }

    [Fact]
    public async Task The_socket_records_a_visit_and_says_what_is_wrong_with_one()
    {
        using var socket = staff.Running.Socket();
        Task<HttpResponseMessage> Send(object visit) => socket.PostAsJsonAsync(new Uri("/control/visit", UriKind.Relative), visit);

        var saved = await Send(new { at = Now, by = "R. Adair", findings = new[] { new { finding = "hole", ear = "left" } } });
        var unknown = await Send(new { at = Now, by = "R. Adair", findings = new[] { new { finding = "hole in the roof", ear = "left" } } });
        var unread = await Send(new { at = "soon", by = "R. Adair", findings = new[] { new { finding = "hole", ear = "left" } } });

        var told = await saved.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Matches("^/back/[\\w-]{43}$", told.GetProperty("link").GetString());
        Assert.Equal("{\"fault\":\"UnknownFinding\"}", await unknown.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.BadRequest, unread.StatusCode);
    }

    [Fact]
    public async Task A_correction_changes_plan_and_gates_at_once_and_both_versions_stay_before_staff()
    {
        using var clinician = await staff.NewAsync("clinician");
        using var desk = await staff.NewAsync("desk");
        using var patient = staff.Running.NewPatient();
        var opened = await OpenAsync(patient, await RecordAsync(clinician, ("found", "right:looked only")));
        await patient.WalkAsync(await patient.AnswerAsync(opened, ("a:about whom", "me"), ("n:age", "34"), ("a:where now", "near the clinic")), Asking.SlowlyDuller);
        Assert.Contains((await ToldAsync(patient)).Advice, a => a.Id == "softening drops");
        var conversation = await staff.Running.ConversationOfAsync(patient);
        var address = $"/staff/visits/{conversation}/correct";
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.Browser.ReadAsync(address)).Status);
        Assert.DoesNotContain(address, (await desk.Browser.ReadAsync("/staff/visits")).Html, StringComparison.Ordinal);

        var form = await clinician.Browser.ReadAsync(address);
        Assert.Contains("value=\"right:looked only\" checked", form.Html, StringComparison.Ordinal);
        var done = await CorrectAsync(clinician, form, address, ("found", "right:looked only"), ("found", "right:hole"), ("found", "left:hole"));

        Assert.Equal("/staff/visits", done.Address.AbsolutePath);
        Assert.Contains("Right ear: Hole in the eardrum", done.Text, StringComparison.Ordinal);
        Assert.Contains("What stood here before (1)", done.Text, StringComparison.Ordinal);
        var plan = await patient.ReadAsync("/aftercare");
        Assert.Contains("This plan was corrected", plan.Text, StringComparison.Ordinal);
        Assert.Contains("Right ear: There is a hole in the eardrum.", plan.Text, StringComparison.Ordinal);
        Assert.Equal("/letter", (await patient.ReadAsync("/plan")).Address.AbsolutePath);
        var letter = await patient.ReadAsync("/letter");
        Assert.Contains("The clinic has corrected what was written down at the visit.", letter.Text, StringComparison.Ordinal);
        await patient.WalkAsync(letter, Asking.SlowlyDuller);
        Assert.DoesNotContain((await ToldAsync(patient)).Advice, a => a.Id == "softening drops");
        Assert.Empty((await staff.Running.Services.GetRequiredService<TurnTaking>().ReplayAsync(conversation, default)).Differing);
        Assert.Contains(await staff.AuditAsync(), e => e.Deed == AuditDeed.CorrectedVisit && e.Conversation == conversation);
    }

    [Fact]
    public async Task What_keeps_a_patient_from_a_treatment_is_taken_back_only_with_a_reason_and_by_one_clinician_at_a_time()
    {
        using var clinician = await staff.NewAsync("clinician");
        using var other = await staff.NewAsync("clinician");
        using var patient = staff.Running.NewPatient();
        await OpenAsync(patient, await RecordAsync(clinician, ("found", "left:hole")));
        var address = $"/staff/visits/{await staff.Running.ConversationOfAsync(patient)}/correct";
        var form = await clinician.Browser.ReadAsync(address);
        var late = await other.Browser.ReadAsync(address);

        var same = await CorrectAsync(clinician, form, address, ("found", "left:hole"));
        var silent = await CorrectAsync(clinician, form, address, ("found", "left:drum seen"));
        var done = await CorrectAsync(clinician, silent, address, ("found", "left:drum seen"), ("reason", "It was a fold of skin"));
        var twice = await CorrectAsync(clinician, silent, address, ("found", "left:drum seen"), ("reason", "It was a fold of skin"));
        var tooLate = await CorrectAsync(other, late, address, ("found", "left:infection"), ("found", "left:hole"), ("reason", "Kept after a fault"));

        Assert.Contains("Nothing is changed.", same.Text, StringComparison.Ordinal);
        Assert.Contains("Write why.", silent.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"left:drum seen\" checked", silent.Html, StringComparison.Ordinal);
        Assert.Contains("Why: It was a fold of skin", done.Text, StringComparison.Ordinal);
        Assert.Equal("/staff/visits", twice.Address.AbsolutePath);
        Assert.Contains("Somebody else has corrected this record meanwhile.", tooLate.Text, StringComparison.Ordinal);
        Assert.Contains("Kept after a fault", tooLate.Html, StringComparison.Ordinal);
        Assert.Single(Regex.Matches((await patient.ReadAsync("/letter")).Text, "The clinic has corrected what was written down"));
        Assert.Equal(HttpStatusCode.NotFound, (await clinician.Browser.ReadAsync("/staff/visits/nobody/correct")).Status);
    }

    [Fact]
    public async Task A_correction_that_a_cut_off_kept_from_the_patient_is_told_in_the_next_minute()
    {
        using var clinician = await staff.NewAsync("clinician");
        using var patient = staff.Running.NewPatient();
        await OpenAsync(patient, await RecordAsync(clinician, ("found", "left:looked only")));
        var store = staff.Running.Services.GetRequiredService<IVisitStore>();
        var visit = (await store.FindAsync(await staff.Running.ConversationOfAsync(patient), default))!;
        await store.CorrectAsync(visit.Corrected(visit.EditionId, visit.At, "R. Adair", [new SeenFinding("hole", Ear.Left)], new Correction(visit.At, "")), default);

        await staff.Running.Services.GetRequiredService<CheckInWatch>().LookAsync(default);
        await staff.Running.Services.GetRequiredService<CheckInWatch>().LookAsync(default);

        Assert.Single(Regex.Matches((await patient.ReadAsync("/letter")).Text, "The clinic has corrected what was written down"));
    }

    static Task<PageRead> CorrectAsync(Colleague clinician, PageRead form, string address, params (string Name, string Value)[] said) =>
        clinician.Browser.PostAsync(address, form.FormTo(address).Append(new("when", Now)).Concat(said.Select(t => KeyValuePair.Create(t.Name, t.Value))));

    async Task<OutcomeTold> ToldAsync(Patient patient) =>
        (await staff.Running.Services.GetRequiredService<TurnTaking>().FindAsync(await staff.Running.ConversationOfAsync(patient), default))!.Value.State.Told!;

    static async Task<PageRead> RecordAsync(Colleague clinician, params (string, string)[] ticked) =>
        await SendAsync(clinician, await clinician.Browser.ReadAsync("/staff/visits/new"), Now, ticked);

    static Task<PageRead> SendAsync(Colleague clinician, PageRead form, string when, params (string Name, string Value)[] ticked) =>
        clinician.Browser.PostAsync("/staff/visits", form.FormTo("/staff/visits").Append(new("when", when)).Concat(ticked.Select(t => KeyValuePair.Create(t.Name, t.Value))));

    static string LinkIn(PageRead saved) => Regex.Match(saved.Html, "/back/[\\w-]+").Value;

    static async Task<PageRead> OpenAsync(Patient patient, PageRead saved)
    {
        var page = await patient.ReadAsync(LinkIn(saved));
        return await patient.PostAsync("/back", page.FormTo("/back"));
    }
}
