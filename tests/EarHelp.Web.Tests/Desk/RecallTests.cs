using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Desk;

[Collection(OneClinicStaff.Name)]
public sealed class RecallTests(ClinicStaff staff)
{
    [Fact]
    public async Task Lists_each_person_who_was_told_by_a_rule_with_the_way_to_their_request()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = staff.Running.NewPatient();
        await Asking.PlanAsync(patient);
        await Asking.AskAsync(patient, ("name", "Zita"), ("number", "07700 900123"));
        using var other = staff.Running.NewPatient();
        await Asking.PlanAsync(other);
        var (conversation, without) = (await staff.Running.ConversationOfAsync(patient), await staff.Running.ConversationOfAsync(other));

        var page = await desk.Browser.ReadAsync("/staff/recall?rule=" + await RuleOfAsync(conversation));

        Assert.Contains($"href=\"/staff/desk/{conversation}\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("Zita", page.Text, StringComparison.Ordinal);
        Assert.Contains($"conversation {without}", page.Text, StringComparison.Ordinal);
        Assert.Contains("this rule decided it", page.Text, StringComparison.Ordinal);
        var account = await staff.AccountOfAsync(desk.Name);
        Assert.Contains(await staff.AuditAsync(), e => e.Who == account && e.Deed == AuditDeed.ListedAffected);
    }

    [Fact]
    public async Task An_unknown_rule_is_said_to_be_unknown_and_authors_see_no_patients()
    {
        using var desk = await staff.NewAsync("desk");
        using var author = await staff.NewAsync("author");

        Assert.Contains("it has no such rule or level", (await desk.Browser.ReadAsync("/staff/recall?rule=NO-1")).Text, StringComparison.Ordinal);
        Assert.Contains("There is no such edition", (await desk.Browser.ReadAsync("/staff/recall?edition=abc&rule=RF-030")).Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, (await author.Browser.ReadAsync("/staff/recall")).Status);
    }

    [Fact]
    public async Task A_level_that_was_withdrawn_lists_everybody_who_was_told_it_and_nobody_else()
    {
        using var desk = await staff.NewAsync("desk");
        using var patient = staff.Running.NewPatient();
        await Asking.PlanAsync(patient);
        using var other = staff.Running.NewPatient();
        await Asking.PlanAsync(other, Asking.DullForWeeks);
        var (told, not) = (await staff.Running.ConversationOfAsync(patient), await staff.Running.ConversationOfAsync(other));

        var page = await desk.Browser.ReadAsync("/staff/recall?rule=" + Uri.EscapeDataString((await ToldAsync(told)).Level));

        Assert.NotEqual((await ToldAsync(told)).Level, (await ToldAsync(not)).Level);
        Assert.Contains($"conversation {told}", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain($"conversation {not}", page.Text, StringComparison.Ordinal);
    }

    async Task<string> RuleOfAsync(string conversation) => (await ToldAsync(conversation)).Reasons.First(r => r.Decides).Rule;

    async Task<OutcomeTold> ToldAsync(string conversation)
    {
        var records = await staff.Running.Services.GetRequiredService<ITurnStore>().LoadAsync(conversation, CancellationToken.None);
        return records.SelectMany(r => TurnJson.Read(r.Body.Span).Replies.OfType<Reply.Outcome>()).Last().Told;
    }
}
