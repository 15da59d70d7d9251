using System.Text.RegularExpressions;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Visits;

namespace EarHelp.Web.Tests.CheckIns;

/// <summary>What a patient who asked for a visit and gave an e-mail address is told by mail: news from the clinic, and a reminder that asks whether anything has changed.</summary>
public sealed class BeforeVisitTests(AskedService service) : IClassFixture<AskedService>
{
    [Fact]
    public async Task A_booked_time_is_told_by_mail_and_the_day_before_new_pain_moves_the_limit_on_the_desk()
    {
        const string Email = "booked@home.example.org";
        using var asking = await AskedAsync(Email);
        var conversation = await service.Running.ConversationOfAsync(asking);
        var booked = await BookAsync(conversation);

        var news = Assert.Single(await service.MoveAsync(0, 15, Email));

        Assert.Contains("Subject: Something for you to read", news, StringComparison.Ordinal);
        Assert.Empty(await service.MoveAsync(0, 16, Email));
        var (reader, told) = await service.OpenAsync(news);
        using var _ = reader;
        Assert.Equal("/visit", told.Address.AbsolutePath);

        var day = booked.UtcDateTime.Date.AddDays(-1);
        var reminder = Assert.Single(await service.MoveAsync((day - service.Clock.GetUtcNow().UtcDateTime.Date).Days, 9, Email));
        var (patient, question) = await service.OpenAsync(reminder);
        using var __ = patient;
        Assert.Contains("Your visit is at", question.Text, StringComparison.Ordinal);
        var before = (await KeptAsync(conversation)).Urgency;
        var changed = await AskedService.ReplyAsync(patient, question, "not well");
        Assert.Contains("/staff/desk/" + conversation, (await service.Kim.Browser.ReadAsync("/staff/desk")).Html.Split("Answered")[0], StringComparison.Ordinal);
        await service.MoveAsync(0, 10, Email);
        await patient.ReachPlanAsync(changed, new Dictionary<string, string[]>(Asking.DullForWeeks) { ["ear signs"] = ["pain", "discharge"], ["pain"] = ["7..10", "7", "8"] });

        var queue = await service.Kim.Browser.ReadAsync("/staff/desk");
        var after = (await KeptAsync(conversation)).Urgency;
        Assert.True(after.Rank < before.Rank, $"{before.Level} stayed {after.Level}");
        Assert.True(after.SeenBy < before.SeenBy);
        Assert.Contains(after.Level, queue.Text, StringComparison.Ordinal);
        Assert.Contains("Not well when asked", queue.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_is_as_before_is_brought_to_the_request_and_gets_no_other_reminder_unless_the_visit_is_moved()
    {
        const string Email = "same@home.example.org";
        using var asking = await AskedAsync(Email);
        var conversation = await service.Running.ConversationOfAsync(asking);
        var booked = await BookAsync(conversation);
        await service.LookAsync();
        var reminder = Assert.Single(await service.MoveAsync((booked.UtcDateTime.Date.AddDays(-1) - service.Clock.GetUtcNow().UtcDateTime.Date).Days, 9, Email));
        var (patient, question) = await service.OpenAsync(reminder);
        using var _ = patient;

        var request = await AskedService.ReplyAsync(patient, question, "well");

        Assert.Equal("/visit", request.Address.AbsolutePath);
        Assert.Empty(await service.MoveAsync(0, 12, Email));
        Assert.DoesNotContain((await KeptAsync(conversation)).Steps, s => s.Kind == DeskStepKind.NotWell);
    }

    [Fact]
    public async Task Who_gave_only_a_number_gets_no_message()
    {
        using var asking = service.Running.NewPatient();
        await Asking.PlanAsync(asking, Asking.DullForWeeks);
        await Asking.AskAsync(asking, ("number", "07700 900123"));
        var conversation = await service.Running.ConversationOfAsync(asking);
        await BookAsync(conversation);

        await service.LookAsync();

        Assert.Null(await service.Part<IFollowUps>().FindAsync(conversation, default));
    }

    async Task<Patient> AskedAsync(string email)
    {
        // A Saturday after the clinic has closed: the next times are on Monday.
        var today = service.Clock.GetUtcNow().DayOfWeek;
        await service.MoveAsync((int)DayOfWeek.Saturday - (int)today + (today == DayOfWeek.Saturday ? 7 : 0), 14, email);
        var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient, Asking.DullForWeeks);
        await Asking.AskAsync(patient, ("email", email));
        return patient;
    }

    /// <summary>Books a time some days ahead for the patient, as staff do.</summary>
    async Task<DateTimeOffset> BookAsync(string conversation)
    {
        var address = "/staff/desk/" + conversation;
        var page = await service.Kim.Browser.ReadAsync(address);
        var start = Regex.Matches(page.Html, "name=\"start\" value=\"(?<at>[0-9]+)\"")[^1].Groups["at"].Value;
        await service.Kim.SendAsync(address + "/time", page, ("start", start), ("agreed", "yes"));
        return DateTimeOffset.FromUnixTimeMilliseconds(long.Parse(start, System.Globalization.CultureInfo.InvariantCulture));
    }

    async Task<Clinic.Requests.VisitRequest> KeptAsync(string conversation) => (await service.Part<IRequestStore>().FindAsync(conversation, default))!.Request;
}
