using System.Net;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.CheckIns;

/// <summary>
/// How patients are asked after a visit: on days 1, 3 and 7 between 9 and 19 o'clock, by messages that a real SMTP server takes (RFC 5321), stopped without
/// signing in (RFC 8058).
/// </summary>
public sealed class CheckInTests(AskedService service) : IClassFixture<AskedService>
{
    /// <summary>What no first sight of a message may say: a locked phone shows it.</summary>
    static readonly Regex OfHealth = new("\\b(ears?|wax|hearing|pain|clinic|visit|doctor|nurse|health|appointment|patient|suction|treatment)\\b", RegexOptions.IgnoreCase);

    static readonly Dictionary<string, string[]> PainAndDischarge = new()
    {
        ["ears affected"] = ["left"],
        ["ear signs"] = ["pain", "discharge"],
        ["pain"] = ["5", "6"],
    };

    [Fact]
    public async Task On_day_one_a_message_asks_without_a_word_about_health_and_all_well_ends_it()
    {
        await service.RecordAsync("well@home.example.org");
        Assert.Empty(await service.MoveAsync(1, 8, "well@home.example.org"));

        var message = Assert.Single(await service.MoveAsync(0, 9, "well@home.example.org"));

        Assert.Contains("Subject: A short question for you", message, StringComparison.Ordinal);
        Assert.DoesNotMatch(OfHealth, Regex.Replace(message, "https://\\S+|List-Unsubscribe[^\r]*", ""));
        Assert.Contains("List-Unsubscribe-Post: List-Unsubscribe=One-Click", message, StringComparison.Ordinal);
        Assert.Contains($"List-Unsubscribe: <https://post.example.org{AskedService.StopIn(message)}>", message, StringComparison.Ordinal);
        var (patient, question) = await service.OpenAsync(message);
        using var _ = patient;
        Assert.Contains("You were at Tidewell Lane Ear Clinic on", question.Text, StringComparison.Ordinal);
        var thanks = await AskedService.ReplyAsync(patient, question, "well");
        Assert.Contains("We ask once more on", thanks.Text, StringComparison.Ordinal);
        Assert.Empty(await service.MoveAsync(0, 12, "well@home.example.org"));
        Assert.Contains("Day 1: well.", (await service.Kim.Browser.ReadAsync("/staff/visits")).Text, StringComparison.Ordinal);
        Assert.Null(await service.Part<IRequestStore>().FindAsync((await service.FollowUpOfAsync("well@home.example.org")).Conversation, default));
    }

    [Fact]
    public async Task On_day_three_more_pain_and_discharge_come_before_the_desk_with_their_limit_and_erasing_leaves_nothing()
    {
        const string Email = "worse@home.example.org";
        await service.RecordAsync(Email);
        await service.MoveAsync(1, 9, Email);
        var message = Assert.Single(await service.MoveAsync(2, 9, Email));
        var (patient, question) = await service.OpenAsync(message);
        using var _ = patient;
        var first = await AskedService.ReplyAsync(patient, question, "not well");
        await service.LookAsync();
        Assert.Contains("Not well after a visit, and the questions were not finished: 1.", (await service.Kim.Browser.ReadAsync("/staff/desk")).Text, StringComparison.Ordinal);
        Assert.Contains("Day 1: no answer. Day 3: not well, and the questions were not finished.", (await service.Kim.Browser.ReadAsync("/staff/visits")).Text, StringComparison.Ordinal);

        var plan = await patient.ReachPlanAsync(await patient.AnswerAsync(first, ("a:about whom", "me"), ("n:age", "34"), ("a:where now", "near the clinic")), PainAndDischarge);

        var conversation = (await service.FollowUpOfAsync(Email)).Conversation;
        var kept = await service.Part<IRequestStore>().FindAsync(conversation, default);
        Assert.NotNull(kept?.Request.Urgency.SeenBy);
        Assert.Equal(Email, kept.Contact?.Email);
        Assert.Contains("The clinic has your answers", plan.Text, StringComparison.Ordinal);
        var desk = await service.Kim.Browser.ReadAsync("/staff/desk");
        Assert.Contains("Not well when asked", desk.Text.Split("To be answered")[1], StringComparison.Ordinal);
        Assert.Contains(kept.Request.Urgency.Level, desk.Text, StringComparison.Ordinal);
        var handover = await service.Kim.Browser.ReadAsync("/staff/desk/" + conversation);
        Assert.Contains("asked how it is, and not well. Reach the patient.", handover.Text, StringComparison.Ordinal);
        Assert.Contains(await service.AuditAsync(), e => e is { Deed: AuditDeed.NotWellAfterVisit, Who: Actor.Service } && e.Conversation == conversation);

        using var socket = service.Running.Socket();
        await socket.PostAsync(new Uri("/control/erase/" + conversation, UriKind.Relative), null);

        Assert.DoesNotContain(await service.Part<IFollowUps>().AllAsync(default), f => f.Email == Email);
        Assert.Null(await service.Part<IRequestStore>().FindAsync(conversation, default));
        Assert.Null(await service.Part<IVisitStore>().FindAsync(conversation, default));
        Assert.Equal("/", (await patient.ReadAsync("/check-in")).Address.AbsolutePath);
        Assert.Equal(HttpStatusCode.NotFound, (await patient.ReadAsync(AskedService.StopIn(message))).Status);
        Assert.All(await service.AuditAsync(), e => Assert.DoesNotContain("home.example.org", e.ToString(), StringComparison.Ordinal));
        Assert.Empty(await service.MoveAsync(4, 9, Email));
    }

    [Fact]
    public async Task What_was_answered_before_is_not_lost_when_a_second_check_in_is_worse()
    {
        const string Email = "again@home.example.org";
        await service.RecordAsync(Email);
        var (patient, question) = await service.OpenAsync(Assert.Single(await service.MoveAsync(1, 9, Email)));
        using var _ = patient;
        var first = await AskedService.ReplyAsync(patient, question, "not well");
        await patient.ReachPlanAsync(await patient.AnswerAsync(first, ("a:about whom", "me"), ("n:age", "34"), ("a:where now", "near the clinic")), PainAndDischarge);
        var conversation = (await service.FollowUpOfAsync(Email)).Conversation;
        var address = "/staff/desk/" + conversation;
        await service.Kim.SendAsync(address + "/telephone", await service.Kim.Browser.ReadAsync(address), ("note", "told what to do"));
        Assert.DoesNotContain(address, (await service.Kim.Browser.ReadAsync("/staff/desk")).Html.Split("Answered")[0], StringComparison.Ordinal);

        var (other, later) = await service.OpenAsync(Assert.Single(await service.MoveAsync(2, 9, Email)));
        using var __ = other;
        var changed = await AskedService.ReplyAsync(other, later, "not well");
        await other.ReachPlanAsync(changed, PainAndDischarge);

        Assert.Contains(address, (await service.Kim.Browser.ReadAsync("/staff/desk")).Html.Split("Answered")[0], StringComparison.Ordinal);
        Assert.Equal(2, (await service.Part<IRequestStore>().FindAsync(conversation, default))!.Request.Steps.Count(s => s.Kind == Clinic.Desk.DeskStepKind.NotWell));
    }

    [Fact]
    public async Task The_link_opens_until_the_next_day_of_asking_and_no_other_does()
    {
        const string Email = "twice@home.example.org";
        await service.RecordAsync(Email);
        var message = Assert.Single(await service.MoveAsync(1, 9, Email));
        var (first, question) = await service.OpenAsync(message);
        var (second, again) = await service.OpenAsync(message);
        using var _ = first;
        using var __ = second;
        Assert.Equal(("/check-in", "/check-in"), (question.Address.AbsolutePath, again.Address.AbsolutePath));

        await service.MoveAsync(2, 9, Email);

        var (third, late) = await service.OpenAsync(message);
        using var ___ = third;
        Assert.Equal(HttpStatusCode.NotFound, late.Status);
    }

    [Fact]
    public async Task A_mail_program_stops_the_messages_without_a_cookie_and_reading_the_page_stops_nothing()
    {
        const string Email = "stop@home.example.org";
        await service.RecordAsync(Email);
        var stop = AskedService.StopIn(Assert.Single(await service.MoveAsync(1, 9, Email)));
        using var program = service.Running.NewPatient();
        Assert.Contains("Stop these messages?", (await program.ReadAsync(stop)).Text, StringComparison.Ordinal);
        Assert.False((await service.FollowUpOfAsync(Email)).IsStopped);

        var stopped = await program.SendAsync(stop, [new("List-Unsubscribe", "One-Click")], ("Sec-Fetch-Site", "cross-site"));

        Assert.Equal(HttpStatusCode.OK, stopped.StatusCode);
        Assert.Empty(await service.MoveAsync(2, 9, Email));
        Assert.Contains("The messages have stopped", (await program.ReadAsync(stop)).Text, StringComparison.Ordinal);
        Assert.Contains("The patient has stopped the e-mails.", (await service.Kim.Browser.ReadAsync("/staff/visits")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_wants_the_plan_by_mail_gets_a_link_that_opens_it_and_no_word_of_it()
    {
        const string Email = "plan@home.example.org";
        await service.RecordAsync(Email, ("found", "left:hole"), ("plan", "yes"));

        var message = Assert.Single(await service.MoveAsync(0, 18, Email));

        Assert.DoesNotMatch(OfHealth, Regex.Replace(message, "https://\\S+|List-Unsubscribe[^\r]*", ""));
        var (patient, plan) = await service.OpenAsync(message);
        using var _ = patient;
        Assert.Equal("/aftercare", plan.Address.AbsolutePath);
        Assert.Empty(await service.MoveAsync(0, 18, Email));
    }

    [Fact]
    public async Task Without_an_address_the_question_waits_on_the_plan()
    {
        var saved = await service.RecordAsync("", ("found", "right:water"));
        using var patient = service.Running.NewPatient();
        var link = await patient.ReadAsync(Regex.Match(saved.Html, "/back/[\\w-]+").Value);
        await patient.PostAsync("/back", link.FormTo("/back"));
        Assert.DoesNotContain("How is it now?", (await patient.ReadAsync("/aftercare")).Text, StringComparison.Ordinal);
        await service.MoveAsync(1, 9, "nobody");

        Assert.Contains("How is it now?", (await patient.ReadAsync("/aftercare")).Text, StringComparison.Ordinal);
        var thanks = await AskedService.ReplyAsync(patient, await patient.ReadAsync("/check-in"), "well");

        Assert.Contains("You said that it is well.", thanks.Text, StringComparison.Ordinal);
        Assert.Contains("Asked on the patient's page only", (await service.Kim.Browser.ReadAsync("/staff/visits")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_address_counts_only_with_the_patients_word_and_must_be_one()
    {
        var unsaid = await service.RecordAsync("", ("found", "left:suction"), ("email", "mo@home.example.org"));
        var wrong = await service.RecordAsync("mo at home");

        Assert.Equal((422, 422), ((int)unsaid.Status, (int)wrong.Status));
        Assert.Contains("Ask the patient whether messages may go to this address", unsaid.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"mo@home.example.org\"", unsaid.Html, StringComparison.Ordinal);
        Assert.Contains("No message can reach this address.", wrong.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_address_that_the_server_refuses_is_told_to_staff_and_tried_again_on_no_day_twice()
    {
        await service.RecordAsync("refused@home.example.org");
        Assert.Empty(await service.MoveAsync(1, 9, "refused@home.example.org"));
        await service.MoveAsync(0, 12, "refused@home.example.org");

        Assert.Equal([MessageState.Refused], (await service.FollowUpOfAsync("refused@home.example.org")).Messages.Select(m => m.State));
        Assert.Contains("Day 1: the address was refused, and no answer yet.", (await service.Kim.Browser.ReadAsync("/staff/visits")).Text, StringComparison.Ordinal);
    }
}
