using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Staff;
using Microsoft.Playwright;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Staff;

/// <summary>A clinician records a visit; the patient opens the link on a telephone, and the plan knows what was found.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class RecordingTests(Service service)
{
    [Theory]
    [InlineData("desktop")]
    [InlineData("phone-plain")]
    public async Task What_was_found_is_ticked_and_the_plan_after_the_visit_knows_it(string device)
    {
        await using var kim = await Visit.BeginAsync(service, Device.Named(device));
        await JoinAsync(kim, service, await InvitedAsync(service, StaffRole.Clinician), "record-" + device);
        await FollowAsync(kim, "Visits");
        await FollowAsync(kim, "Record a visit");
        await Looks.WellAsync(kim, "record-1-form");
        await PressAsync(kim, "Record the visit");
        await Expect(kim.Page.GetByRole(AriaRole.Alert)).ToHaveTextAsync("Nothing is ticked. Tick at least one thing.");
        await kim.Page.GetByLabel("Suction").First.CheckAsync();
        await kim.Page.GetByLabel("Hole in the eardrum").First.CheckAsync();
        await PressAsync(kim, "Record the visit");
        await Looks.WellAsync(kim, "record-2-link");
        var link = await kim.Page.Locator("#link").InnerTextAsync();
        await kim.Page.GetByRole(AriaRole.Main).GetByRole(AriaRole.Link, new() { Name = "Visits", Exact = true }).Last.ClickAsync();
        await Expect(kim.Page.GetByText("Left ear: Hole in the eardrum").First).ToBeVisibleAsync();
        var uncorrected = kim.Page.Locator("section").Filter(new() { HasText = "Left ear: Hole in the eardrum", HasNotText = "What stood here before" });
        await uncorrected.First.GetByRole(AriaRole.Link, new() { Name = "Correct this record" }).ClickAsync();
        await Expect(kim.Page.GetByLabel("Hole in the eardrum").First).ToBeCheckedAsync();
        await kim.Page.GetByLabel("Hole in the eardrum").First.UncheckAsync();
        await PressAsync(kim, "Save the correction");
        await Expect(kim.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Write why.");
        await Looks.WellAsync(kim, "record-3-correct");
        await kim.Page.GetByLabel("Hole in the eardrum").First.CheckAsync();
        await kim.Page.GetByLabel("Sore or grazed skin").First.CheckAsync();
        await PressAsync(kim, "Save the correction");
        await kim.Page.GetByText("What stood here before").First.ClickAsync();
        await Looks.WellAsync(kim, "record-3-list");

        await using var patient = await Visit.BeginAsync(service, Device.Phone);
        await patient.Page.GotoAsync(link);
        await PressAsync(patient, "Open my conversation");
        await Expect(patient.Page.GetByText("Known from the visit, and not asked again").First).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "record-4-opened-" + device);
        await patient.WholeWayAsync(Person.SlowlyDuller);

        await Expect(patient.Page.GetByText("What was recorded at the visit counts too, whatever was answered here.").First).ToBeVisibleAsync();
        await Looks.WellAsync(patient, "record-5-plan-" + device);
        Assert.Empty(kim.Complaints.Concat(patient.Complaints));
    }
}
