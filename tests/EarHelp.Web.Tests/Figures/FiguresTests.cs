using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;

namespace EarHelp.Web.Tests.Figures;

public sealed class FiguresTests(ClinicStaff staff) : IClassFixture<ClinicStaff>
{
    [Fact]
    public async Task Counts_what_happened_in_the_month_and_never_shows_a_count_in_which_somebody_could_be_found()
    {
        for (var patient = 0; patient < 6; patient++)
        {
            using var asking = staff.Running.NewPatient();
            await Asking.PlanAsync(asking);
            if (patient < 3)
                await Asking.AskAsync(asking, ("name", "Zita"), ("number", "07700 900123"));
        }

        using var clinician = await staff.NewAsync("clinician");
        using var desk = await staff.NewAsync("desk");

        var page = await clinician.Browser.ReadAsync("/staff/figures");
        var file = (await clinician.Browser.ReadAsync("/staff/figures.csv?month=2026-11")).Html;

        Assert.Contains("Figures of November 2026", page.Text, StringComparison.Ordinal);
        Assert.Contains("Conversations before a visit 5 ", page.Text, StringComparison.Ordinal);
        Assert.Contains("<rect", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Zita", page.Html + file, StringComparison.Ordinal);
        Assert.Contains("2026-11,Conversations,,before a visit,count,5\r\n", file, StringComparison.Ordinal);
        Assert.Matches("2026-11,AnswerTimes,,[a-z ]+,NotYet,under 5\r\n", file);
        Assert.Contains("2026-11,Answers,cotton buds lately,", file, StringComparison.Ordinal);
        Assert.All(file.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1), line => Assert.Matches(",(under 5|withheld|[0-9]*[05])$", line));
        Assert.Contains("Nothing began in this month", (await clinician.Browser.ReadAsync("/staff/figures?month=2026-01")).Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await clinician.Browser.ReadAsync("/staff/figures?month=lately")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.Browser.ReadAsync("/staff/figures")).Status);
        var account = await staff.AccountOfAsync(clinician.Name);
        Assert.Equal(3, (await staff.AuditAsync()).Count(e => e.Who == account && e.Deed == AuditDeed.ReadFigures));
    }
}
