using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Desk;

[Collection(OneClinicStaff.Name)]
public sealed class IncidentTests(ClinicStaff staff)
{
    [Fact]
    public async Task Staff_and_patients_report_with_conversation_edition_and_rules_and_an_erasure_takes_it_all()
    {
        using var desk = await staff.NewAsync("desk");
        using var clinician = await staff.NewAsync("clinician");
        using var patient = staff.Running.NewPatient();
        await Asking.PlanAsync(patient);
        await Asking.AskAsync(patient, ("number", "07700 900123"));
        var conversation = await staff.Running.ConversationOfAsync(patient);

        var form = await patient.ReadAsync("/incident");
        var thanks = await patient.PostAsync("/incident", [.. form.FormTo("/incident"), new("happened", "The page said <b>drops</b>.")]);
        var address = $"/staff/desk/{conversation}";
        await desk.SendAsync(address + "/incident", await desk.Browser.ReadAsync(address), ("happened", "No call was made."));

        Assert.Contains("Thank you", thanks.Text, StringComparison.Ordinal);
        var mine = (await AllAsync()).Where(i => i.Conversation == conversation).ToList();
        Assert.Equal(["No call was made.", "The page said <b>drops</b>."], mine.Select(i => i.Words).Order(StringComparer.Ordinal));
        Assert.All(mine, i => Assert.NotEmpty(i.Rules));
        Assert.Contains(mine, i => i.By == Incident.ByPatient);
        var list = await clinician.Browser.ReadAsync("/staff/incidents");
        Assert.Contains("The page said &lt;b&gt;drops&lt;/b&gt;.", list.Html, StringComparison.Ordinal);
        Assert.Contains(mine[0].Edition, list.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.Browser.ReadAsync("/staff/incidents")).Status);
        Assert.Contains(await staff.AuditAsync(), e => e.Deed == AuditDeed.ReportedIncident && e.Conversation == conversation);

        await staff.Running.Services.GetRequiredService<ITurnStore>().EraseAsync(conversation, default);
        Assert.DoesNotContain(await AllAsync(), i => i.Conversation == conversation);
    }

    [Fact]
    public async Task An_empty_report_comes_again_and_without_a_conversation_the_way_is_a_complaint()
    {
        using var patient = staff.Running.NewPatient();
        Assert.Equal("/complaints", (await patient.ReadAsync("/incident")).Address.AbsolutePath);
        await patient.BeginAsync();
        var form = await patient.ReadAsync("/incident");

        var again = await patient.PostAsync("/incident", [.. form.FormTo("/incident"), new("happened", " ")]);

        Assert.Equal(422, (int)again.Status);
        Assert.Contains("Write what was wrong.", again.Text, StringComparison.Ordinal);
    }

    async Task<IEnumerable<Incident>> AllAsync() => await staff.Running.Services.GetRequiredService<IIncidents>().AllAsync(CancellationToken.None);
}
