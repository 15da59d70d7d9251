using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.People;

/// <summary>
/// Ten to midnight before Good Friday (26 March 2027). The clinic is closed on Good Friday, open on Saturday, closed on Sunday and on Easter Monday;
/// on the Sunday the clocks go forward. Source: the United Kingdom government's list "UK bank holidays".
/// </summary>
public sealed class HolidayEveTests
{
    static readonly DateTimeOffset TenToMidnight = new(2027, 3, 25, 23, 50, 0, TimeSpan.Zero);

    [Fact]
    public async Task Who_may_wait_is_offered_the_first_day_on_which_the_clinic_is_open_and_who_may_not_is_sent_elsewhere()
    {
        var service = await Service.AtAsync(TenToMidnight);
        try
        {
            await using var calm = await Visit.BeginAsync(service, Device.Phone);
            await calm.WholeWayAsync(Person.SlowlyDuller);
            await calm.Page.GetByRole(AriaRole.Link, new() { Name = "Ask for a visit" }).ClickAsync();
            await calm.Page.GetByLabel("E-mail address").FillAsync("jo@example.org");
            await PressAsync(calm, "Check before sending");
            await PressAsync(calm, "Send the request");
            await calm.Page.GetByRole(AriaRole.Link, new() { Name = "Choose a time" }).ClickAsync();
            var offered = await calm.Page.Locator("button[name=start]").EvaluateAllAsync<string[]>("buttons => buttons.map(b => b.getAttribute('aria-label'))");
            await Looks.WellAsync(calm, "holiday-1-times");

            Assert.Contains("9:30 am on Saturday 27 March 2027", offered[0], StringComparison.Ordinal);
            string[] closed = ["Friday 26 March", "Sunday 28 March", "Monday 29 March"];
            Assert.DoesNotContain(offered, time => closed.Any(day => time.Contains(day, StringComparison.Ordinal)));
            await calm.Page.Locator("button[name=start]").First.ClickAsync();
            await PressAsync(calm, "Take this time");
            await Expect(calm.Page.GetByText("Your visit is at 9:30 am on Saturday 27 March 2027")).ToBeVisibleAsync();
            await Looks.WellAsync(calm, "holiday-2-booked");

            await using var urgent = await Visit.BeginAsync(service, Device.Phone);
            await urgent.WholeWayAsync(Person.SuddenlyDull);
            await Looks.WellAsync(urgent, "holiday-3-elsewhere");
            await Expect(urgent.Page.GetByRole(AriaRole.Link, new() { Name = "Ask for a visit" })).ToHaveCountAsync(0);
            Assert.Empty(calm.Complaints.Concat(urgent.Complaints));
        }
        finally
        {
            await service.DisposeAsync();
        }
    }

    static Task PressAsync(Visit visit, string button) => visit.Page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
}
