using System.Globalization;
using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Desk;

[Collection(OneClinicStaff.Name)]
public sealed class CallerTests(ClinicStaff staff)
{
    ICallers Callers => staff.Running.Services.GetRequiredService<ICallers>();

    [Fact]
    public async Task The_desk_holds_the_same_conversation_for_a_caller_and_reads_what_to_do_when_it_is_an_emergency()
    {
        using var desk = await staff.NewAsync("desk");
        var letter = await BeginAsync(desk, "07700 900123");
        Assert.Contains("You answer for a caller", letter.Text, StringComparison.Ordinal);
        Assert.Contains("07700 900123", letter.Text, StringComparison.Ordinal);
        var conversation = await staff.Running.ConversationOfAsync(desk.Browser);

        var questions = await desk.Browser.AnswerAsync(letter, ("a:about whom", "me"), ("n:age", "58"), ("a:where now", "near the clinic"));
        var plan = await desk.Browser.ReachPlanAsync(questions, new Dictionary<string, string[]> { ["danger signs"] = ["speech trouble"] });

        Assert.Contains("Emergency: say and do this now", plan.Text, StringComparison.Ordinal);
        Assert.Contains("Ask for the number and the exact address", plan.Text, StringComparison.Ordinal);
        Assert.Contains(await staff.AuditAsync(), e => e.Deed == AuditDeed.BeganForCaller && e.Conversation == conversation);
        Assert.DoesNotContain("07700 900123", (await desk.Browser.ReadAsync("/staff/callers")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_caller_gets_the_conversation_by_a_private_link_without_what_the_desk_reads_and_a_request_stands_on_the_desk()
    {
        using var desk = await staff.NewAsync("desk");
        var letter = await BeginAsync(desk, "");
        var questions = await desk.Browser.AnswerAsync(letter, ("a:about whom", "me"), ("n:age", "58"), ("a:where now", "near the clinic"));
        var plan = await desk.Browser.ReachPlanAsync(questions, Asking.SlowlyDuller);
        Assert.Contains("You answer for a caller", plan.Text, StringComparison.Ordinal);
        await Asking.AskAsync(desk.Browser, ("name", "Carla Rook"), ("number", "07700 900123"));
        Assert.Contains("Carla Rook", (await desk.Browser.ReadAsync("/staff/desk")).Text, StringComparison.Ordinal);
        var link = await desk.Browser.PostAsync("/link", plan.FormTo("/link"));
        var address = new Uri(Asking.CodeOn(link)).AbsolutePath;

        using var caller = staff.Running.NewPatient();
        var back = await caller.ReadAsync(address);
        await caller.PostAsync("/back", back.FormTo("/back"));

        Assert.DoesNotContain("You answer for a caller", (await caller.ReadAsync("/plan")).Text, StringComparison.Ordinal);
        var ended = await desk.SendAsync("/staff/callers/end", await desk.Browser.ReadAsync("/staff/callers"));
        Assert.Equal("/staff/callers", ended.Address.AbsolutePath);
        Assert.Equal("/", (await desk.Browser.ReadAsync("/plan")).Address.AbsolutePath);
    }

    [Fact]
    public async Task A_call_that_broke_off_stays_on_the_list_until_it_is_followed_up_and_goes_with_its_conversation()
    {
        using var desk = await staff.NewAsync("desk");
        await BeginAsync(desk, "01632 960199");
        var conversation = await staff.Running.ConversationOfAsync(desk.Browser);
        var list = await desk.Browser.ReadAsync("/staff/callers");
        Assert.Contains("01632 960199", list.Text, StringComparison.Ordinal);

        var after = await desk.SendAsync($"/staff/callers/{conversation}/followed-up", list);

        Assert.DoesNotContain("01632 960199", after.Text, StringComparison.Ordinal);
        Assert.NotNull((await Callers.FindAsync(conversation, default))!.FollowedUpBy);
        await staff.Running.Services.GetRequiredService<ITurnStore>().EraseAsync(conversation, default);
        Assert.Null(await Callers.FindAsync(conversation, default));
    }

    [Fact]
    public async Task The_desk_holds_the_conversation_after_a_visit_with_what_was_found_and_a_caller_cannot_clear_it()
    {
        using var clinician = await staff.NewAsync("clinician");
        var form = await clinician.Browser.ReadAsync("/staff/visits/new");
        var when = ClinicStaff.Now.AddHours(-1).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);
        await clinician.SendAsync("/staff/visits", form, ("when", when), ("found", "right:hole"));
        using var desk = await staff.NewAsync("desk");
        var conversation = form.FormTo("/staff/visits")["turn"];
        var address = "/staff/callers?visit=" + conversation;
        Assert.Contains(address, (await desk.Browser.ReadAsync("/staff/visits")).Html, StringComparison.Ordinal);

        var letter = await desk.SendAsync("/staff/callers/visits/" + conversation, await desk.Browser.ReadAsync(address), ("number", "07700 900131"));

        Assert.Contains("You answer for a caller", letter.Text, StringComparison.Ordinal);
        Assert.Contains("Known from the visit, and not asked again", letter.Text, StringComparison.Ordinal);
        Assert.Equal(conversation, await staff.Running.ConversationOfAsync(desk.Browser));
        var asked = await desk.Browser.AnswerAsync(letter, ("a:about whom", "me"), ("n:age", "58"), ("a:where now", "near the clinic"));
        Assert.DoesNotContain(await desk.Browser.WalkAsync(asked, Asking.SlowlyDuller), p => p.Html.Contains("a:hole found", StringComparison.Ordinal));
        Assert.Equal("07700 900131", (await Callers.FindAsync(conversation, default))!.Number);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.SendAsync("/staff/callers/visits/none", await desk.Browser.ReadAsync("/staff/callers?visit=none"))).Status);
    }

    static async Task<PageRead> BeginAsync(Colleague desk, string number) =>
        await desk.SendAsync("/staff/callers", await desk.Browser.ReadAsync("/staff/callers"), ("number", number));
}
