using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Security;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Staff;

/// <summary>An approver reads the figures of the month on a telephone and at a desk.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class FiguresTests(Service service)
{
    [Fact]
    public async Task The_figures_of_the_month_are_read_as_tables_with_drawings_and_can_be_fetched()
    {
        for (var patient = 0; patient < 12; patient++)
            await service.Part<TurnTaking>().TakeAsync(Secret.NewIdentifier(), new Turn("1", null, new TurnContent.Begin("en")), [], CancellationToken.None);
        foreach (var (device, name) in ((Device, string)[])[(Device.Dark, "mo"), (Device.Desktop, "ash")])
        {
            await using var reader = await Visit.BeginAsync(service, device);
            await JoinAsync(reader, service, await InvitedAsync(service, StaffRole.Approver), name);
            await FollowAsync(reader, "Figures");

            await Expect(reader.Page.GetByRole(Microsoft.Playwright.AriaRole.Heading, new() { Name = "Levels" })).ToBeVisibleAsync();
            await Looks.WellAsync(reader, "figures-" + name);
            var file = await reader.Page.RunAndWaitForDownloadAsync(() => reader.Page.GetByText("as a file").ClickAsync());
            Assert.StartsWith("figures-", file.SuggestedFilename, StringComparison.Ordinal);
            Assert.Empty(reader.Complaints);
        }
    }
}
