using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.Pages;

[Collection(ServiceAndBrowser.Name)]
public sealed class FocusTests(Service service)
{
    const int MostStops = 120;

    [Theory]
    [InlineData("desktop")]
    [InlineData("phone")]
    [InlineData("zoomed")]
    public async Task Focus_moves_to_the_new_question_and_is_never_lost(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);

        await visit.WalkToPlanAsync(Person.Swimmer, () => Looks.FocusCanBeSeenAsync(visit, "after an answer"));

        await Looks.FocusCanBeSeenAsync(visit, "plan");
    }

    [Theory]
    [InlineData("desktop")]
    [InlineData("zoomed")]
    public async Task Every_control_that_the_tab_key_reaches_can_be_seen_with_its_focus(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);

        await visit.Page.EvaluateAsync("() => { document.activeElement.blur(); scrollTo(0, 0); }");
        for (var stop = 0; stop < MostStops; stop++)
        {
            await visit.Page.Keyboard.PressAsync("Tab");
            if (await visit.Page.EvaluateAsync<bool>("() => document.activeElement === document.body"))
                return;
            await Looks.FocusCanBeSeenAsync(visit, $"stop {stop}");
            await Looks.FocusIsDrawnAsync(visit, $"stop {stop}");
        }

        Assert.Fail($"The tab key did not reach the end of the page in {MostStops} stops.");
    }

    [Fact]
    public async Task Arrowing_through_radios_sends_nothing()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Desktop);
        await visit.StartAsync();
        await visit.Now.GetByRole(AriaRole.Radio).First.FocusAsync();
        var before = visit.Requested.Count;

        foreach (var key in (string[])["ArrowDown", "ArrowDown", "ArrowUp", "Space"])
            await visit.Page.Keyboard.PressAsync(key);

        Assert.Equal(before, visit.Requested.Count);
    }

    [Theory]
    [InlineData("desktop")]
    [InlineData("phone-plain")]
    public async Task An_empty_answer_is_told_at_the_question_and_keeps_what_was_filled_in(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);

        await visit.ContinueAsync();

        await Assertions.Expect(visit.Page.Locator("#faults")).ToBeVisibleAsync();
        await visit.KeepPictureAsync("error");
        await Axe.FindsNothingAsync(visit, "an error");
        if (visit.Device.HasScript)
            await Looks.FocusCanBeSeenAsync(visit, "an error");
    }
}
