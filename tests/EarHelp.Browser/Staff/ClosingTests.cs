using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Staff;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Staff;

/// <summary>A clinician falls ill, closes the clinic on a telephone without script, and opens it again.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class ClosingTests(Service service)
{
    [Fact]
    public async Task The_clinic_is_closed_from_now_on_in_one_step_and_a_plan_says_so()
    {
        await using var patient = await Visit.BeginAsync(service, Device.Phone);
        await patient.WholeWayAsync(Person.SlowlyDuller);
        await using var lou = await Visit.BeginAsync(service, Device.PlainPhone);
        await JoinAsync(lou, service, await InvitedAsync(service, StaffRole.Clinician), "lou");
        await PressAsync(lou, "I am on duty now");
        await Looks.WellAsync(lou, "closing-1-duty");
        await FollowAsync(lou, "Closing");
        await Looks.WellAsync(lou, "closing-2-page");

        await PressAsync(lou, "Close now");
        await Expect(lou.Page.GetByText("The clinic is closed from now")).ToBeVisibleAsync();
        await Looks.WellAsync(lou, "closing-3-closed");
        await patient.Page.ReloadAsync();
        await Expect(patient.Page.GetByText("had to close at once")).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "closing-4-plan");

        await PressAsync(lou, "Open again now");
        await patient.Page.ReloadAsync();
        await Expect(patient.Page.GetByText("had to close at once")).ToHaveCountAsync(0);
        Assert.Empty(lou.Complaints.Concat(patient.Complaints));
    }
}
