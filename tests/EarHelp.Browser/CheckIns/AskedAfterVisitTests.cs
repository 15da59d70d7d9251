using System.Text.RegularExpressions;
using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Keeping;
using Microsoft.Playwright;
using static EarHelp.Browser.Staff.Colleague;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.CheckIns;

/// <summary>From the recorded visit to the desk: the plan is read on a phone, and on day 3 the answer to a message is "more pain, discharge".</summary>
public sealed partial class AskedAfterVisitTests(AskingService service) : IClassFixture<AskingService>
{
    static readonly Person Worse = Person.Swimmer with
    {
        Choices = Person.Swimmer.Choices.SetItem("ear signs", ["Pain", "Fluid or pus came out"]),
    };

    [Fact]
    public async Task A_patient_who_is_worse_on_day_three_comes_before_the_desk_with_a_limit_and_is_erased_without_a_trace()
    {
        await using var kim = await Visit.BeginAsync(service, Device.Desktop);
        await JoinAsync(kim, service, await InvitedAsync(service, StaffRole.Clinician, StaffRole.Desk), "asked-after");
        var link = await RecordAsync(kim);

        await using var phone = await Visit.BeginAsync(service, Device.Phone);
        await phone.Page.GotoAsync(link);
        await PressAsync(phone, "Open my conversation");
        await FollowAsync(phone, "The plan after the visit");
        await Expect(phone.Page.GetByRole(AriaRole.Heading, new() { Name = "After the visit of" })).ToBeVisibleAsync();
        await service.MoveAsync(1, 9);
        await phone.Page.ReloadAsync();
        await Expect(phone.Page.GetByRole(AriaRole.Heading, new() { Name = "How is it now?" })).ToBeVisibleAsync();
        await Looks.WellAsync(phone, "check-in-1-plan");

        await service.MoveAsync(2, 9);
        await using var later = await Visit.BeginAsync(service, Device.Phone);
        await later.Page.GotoAsync(new Uri(service.Address, LinkIn().Match(service.Mail.Taken()[^1].Text.Replace("=\r\n", "", StringComparison.Ordinal)).Value).ToString());
        await Looks.WellAsync(later, "check-in-2-link");
        await PressAsync(later, "Open the question");
        await Looks.WellAsync(later, "check-in-3-question");
        await PressAsync(later, "Something is worse, new or not right");
        await later.WholeWayAsync(Worse);
        await Expect(later.Page.GetByText("The clinic has your answers")).ToBeVisibleAsync();
        await Looks.WellAsync(later, "check-in-4-plan");

        await FollowAsync(kim, "Requests");
        var row = kim.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = "Not well when asked" });
        await Expect(row).ToContainTextAsync("within");
        await Expect(row).ToContainTextAsync("asked how it is, and not well");
        await Looks.WellAsync(kim, "check-in-5-desk");
        await row.GetByRole(AriaRole.Link).ClickAsync();
        await Expect(kim.Page.GetByText("mo@home.example.org").First).ToBeVisibleAsync();
        await Looks.WellAsync(kim, "check-in-6-handover");
        await EraseAsync(kim.Page.Url.Split('/')[^1]);

        await later.Page.ReloadAsync();
        await Expect(later.Page).ToHaveURLAsync(service.Address.ToString());
        Assert.Empty(kim.Complaints.Concat(phone.Complaints).Concat(later.Complaints));
    }

    static async Task<string> RecordAsync(Visit kim)
    {
        await FollowAsync(kim, "Visits");
        await FollowAsync(kim, "Record a visit");
        await kim.Page.GetByLabel("When the visit was").FillAsync("2026-11-24T09:00");
        await kim.Page.GetByLabel("Suction").First.CheckAsync();
        await kim.Page.GetByLabel("E-mail address for asking how it is").FillAsync("mo@home.example.org");
        await PressAsync(kim, "Record the visit");
        await Expect(kim.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Ask the patient whether messages may go to this address");
        await kim.Page.GetByLabel("The patient agrees to these messages").CheckAsync();
        await Looks.WellAsync(kim, "check-in-0-form");
        await PressAsync(kim, "Record the visit");
        return await kim.Page.Locator("#link").InnerTextAsync();
    }

    async Task EraseAsync(string conversation)
    {
        await service.Part<ITurnStore>().EraseAsync(conversation, CancellationToken.None);
        service.Part<Conversation.Taking.TurnTaking>().Forget(conversation);

        Assert.Empty(await service.Part<IFollowUps>().AllAsync(CancellationToken.None));
        Assert.Empty(await service.Part<IRequestStore>().WaitingAsync(CancellationToken.None));
        Assert.Empty(await service.Part<IVisitStore>().AllAsync(CancellationToken.None));
        Assert.All((await service.Part<IAuditTrail>().ReadAsync(CancellationToken.None)).Entries, e => Assert.DoesNotContain("home.example", e.ToString(), StringComparison.Ordinal));
    }

    [GeneratedRegex("/check-in/[\\w-]{43}")]
    private static partial Regex LinkIn();
}
