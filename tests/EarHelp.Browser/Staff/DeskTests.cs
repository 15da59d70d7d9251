using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Staff;
using Microsoft.Playwright;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Staff;

/// <summary>A request appears on the open desk by itself, is answered there, and the patient reads the answer.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class DeskTests(Service service)
{
    [Theory]
    [InlineData("desktop")]
    [InlineData("phone-plain")]
    public async Task A_request_is_read_and_answered_and_the_patient_takes_the_offered_time(string device)
    {
        await using var kim = await Visit.BeginAsync(service, Device.Named(device));
        await JoinAsync(kim, service, await InvitedAsync(service, StaffRole.Desk, StaffRole.Clinician), "kim-" + device);
        await FollowAsync(kim, "Requests");
        await using var patient = await Visit.BeginAsync(service, Device.Phone);
        await patient.WholeWayAsync(Person.SlowlyDuller);
        await FollowAsync(patient, "Ask for a visit");
        var name = "Iris Vane " + device;
        await patient.Page.GetByLabel("Name").FillAsync(name);
        await patient.Page.GetByLabel("Telephone number").FillAsync("07700 900123");
        await PressAsync(patient, "Check before sending");
        await PressAsync(patient, "Send the request");

        if (!kim.Device.HasScript)
            await kim.Page.ReloadAsync();
        await Expect(kim.Page.GetByRole(AriaRole.Link, new() { Name = name })).ToBeVisibleAsync();
        await Looks.WellAsync(kim, "desk-1-requests");
        await FollowAsync(kim, name);
        await Looks.WellAsync(kim, "desk-2-handover");
        await kim.Page.GetByRole(AriaRole.Group, new() { Name = "All of these are free" }).GetByRole(AriaRole.Radio).Last.CheckAsync();
        await PressAsync(kim, "Offer it: the patient confirms");
        await Expect(kim.Page.GetByText("offered this time")).ToBeVisibleAsync();
        await kim.Page.GetByLabel("The reason").FillAsync("Fluid came out of the ear.");
        await kim.Page.GetByLabel("To be seen").SelectOptionAsync("in two weeks");
        await PressAsync(kim, "Change how soon");
        await Expect(kim.Page.GetByText("called \"in two weeks\"")).ToBeVisibleAsync();
        await Looks.WellAsync(kim, "desk-3-answered");

        await patient.Page.ReloadAsync();
        await Expect(patient.Page.GetByText("Fluid came out of the ear.")).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "desk-4-patient-" + device);
        await PressAsync(patient, "Take this time");
        await Expect(patient.Page.GetByText("Your visit is at")).ToBeVisibleAsync();
        Assert.Empty(kim.Complaints.Concat(patient.Complaints));
    }
}
