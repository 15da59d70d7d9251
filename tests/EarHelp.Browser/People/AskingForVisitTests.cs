using System.Text.RegularExpressions;
using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.People;

/// <summary>Someone who cannot hear on the telephone asks for a visit, comes back on another device, and takes it back.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed partial class AskingForVisitTests(Service service)
{
    [Theory]
    [InlineData("desktop")]
    [InlineData("phone")]
    [InlineData("phone-plain")]
    public async Task A_visit_is_asked_for_by_text_message_and_taken_back_with_the_receipt_code(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.WholeWayAsync(Person.SlowlyDuller);
        await visit.KeepPictureAsync("visit-0-plan");
        await Axe.FindsNothingAsync(visit, "plan with an offer");
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Ask for a visit" }).ClickAsync();
        await Looks.WellAsync(visit, "visit-1-form");

        await PressAsync(visit, "Check before sending");
        await Expect(visit.Page.Locator("#faults")).ToContainTextAsync("Write a telephone number or an e-mail address");
        await Looks.WellAsync(visit, "visit-2-missing");

        await visit.Page.GetByRole(AriaRole.Radio, new() { Name = "By text message" }).CheckAsync();
        await visit.Page.GetByLabel("Telephone number").FillAsync("07700 900123");
        await visit.Page.GetByLabel("A way in without steps").CheckAsync();
        await PressAsync(visit, "Check before sending");
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Is this right?");
        await Looks.WellAsync(visit, "visit-3-review");

        await PressAsync(visit, "Correct it");
        await Expect(visit.Page.GetByLabel("Telephone number")).ToHaveValueAsync("07700 900123");
        await PressAsync(visit, "Check before sending");
        await PressAsync(visit, "Send the request");
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Your request is with");
        await Looks.WellAsync(visit, "visit-4-sent");
        var code = await visit.Page.Locator("#link").InnerTextAsync();
        Assert.Matches(Code(), code);

        await using var elsewhere = await Visit.BeginAsync(service, Device.Named(device));
        await elsewhere.Page.GetByRole(AriaRole.Link, new() { Name = "I have a receipt code" }).ClickAsync();
        await Looks.WellAsync(elsewhere, "visit-5-receipt");
        await elsewhere.Page.GetByLabel("Receipt code").FillAsync(code.ToLowerInvariant());
        await PressAsync(elsewhere, "Open my request");
        await Expect(elsewhere.Page.GetByText("07700 900123")).ToBeVisibleAsync();
        await elsewhere.Page.GetByRole(AriaRole.Link, new() { Name = "Take the request back" }).ClickAsync();
        await Looks.WellAsync(elsewhere, "visit-6-withdraw");
        await PressAsync(elsewhere, "Yes, take it back");
        await Expect(elsewhere.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("You took the request back");
        await Looks.WellAsync(elsewhere, "visit-7-withdrawn");

        Assert.Empty(visit.Complaints.Concat(elsewhere.Complaints));
    }

    [Theory]
    [InlineData("desktop")]
    [InlineData("phone-plain")]
    public async Task A_free_time_is_chosen_confirmed_and_cancelled(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.WholeWayAsync(Person.SlowlyDuller);
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Ask for a visit" }).ClickAsync();
        await visit.Page.GetByLabel("E-mail address").FillAsync("jo@example.org");
        await PressAsync(visit, "Check before sending");
        await PressAsync(visit, "Send the request");
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Choose a time" }).ClickAsync();
        await Looks.WellAsync(visit, "times-1-free");
        var time = visit.Page.Locator("button[name=start]").First;
        var label = await time.GetAttributeAsync("aria-label");

        await time.ClickAsync();
        await Expect(visit.Page.GetByText($"We hold this time: {label}")).ToBeVisibleAsync();
        await Looks.WellAsync(visit, "times-2-held");
        await PressAsync(visit, "Take this time");
        await Expect(visit.Page.GetByText($"Your visit is at {label}")).ToBeVisibleAsync();
        await Looks.WellAsync(visit, "times-3-booked");
        var file = await visit.Page.RunAndWaitForDownloadAsync(() => visit.Page.GetByRole(AriaRole.Link, new() { Name = "Put it into your calendar" }).ClickAsync());
        Assert.Equal("appointment.ics", file.SuggestedFilename);

        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Cancel the visit" }).ClickAsync();
        await Looks.WellAsync(visit, "times-4-cancel");
        await PressAsync(visit, "Yes, cancel it");
        await Expect(visit.Page.GetByRole(AriaRole.Link, new() { Name = "Choose a time" })).ToBeVisibleAsync();
        Assert.Empty(visit.Complaints);
    }

    static Task PressAsync(Visit visit, string button) =>
        visit.Page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();

    [GeneratedRegex("^[0-9A-Z]{4}( [0-9A-Z]{4}){7}$")]
    private static partial Regex Code();
}
