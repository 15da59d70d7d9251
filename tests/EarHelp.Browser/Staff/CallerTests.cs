using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Staff;
using Microsoft.Playwright;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Staff;

/// <summary>Somebody telephones: the desk holds the conversation, and it is an emergency.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class CallerTests(Service service)
{
    [Fact]
    public async Task The_desk_answers_for_a_caller_and_reads_at_once_what_to_say_and_do()
    {
        await using var kit = await Visit.BeginAsync(service, Device.Desktop);
        await JoinAsync(kit, service, await InvitedAsync(service, StaffRole.Desk), "kit");
        await FollowAsync(kit, "Callers");
        await kit.Page.GetByLabel("Number to call back on").FillAsync("07700 900123");
        await Looks.WellAsync(kit, "caller-1-begin");
        await PressAsync(kit, "Begin for this caller");
        await Expect(kit.Page.GetByRole(AriaRole.Heading, new() { Name = "You answer for a caller" })).ToBeVisibleAsync();
        await Looks.WellAsync(kit, "caller-2-letter");

        await kit.FillFormAsync(Person.SlowlyDuller);
        await kit.ChooseAsync("Words are slurred");
        await kit.ContinueAsync();
        await kit.WalkToPlanAsync(Person.SlowlyDuller);
        await Expect(kit.Page.GetByRole(AriaRole.Heading, new() { Name = "Emergency: say and do this now" })).ToBeVisibleAsync();
        await Looks.WellAsync(kit, "caller-3-now");

        await FollowAsync(kit, "To the list of callers");
        await PressAsync(kit, "End the call in this browser");
        await Expect(kit.Page.GetByRole(AriaRole.Heading, new() { Name = "Callers", Exact = true })).ToBeVisibleAsync();
        Assert.Empty(kit.Complaints);
    }
}
