using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.Pages;

/// <summary>The drawing of the ear: a person may point at a place, or use the list, which says the same.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class PointingTests(Service service)
{
    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task Pointing_at_the_ear_tube_goes_to_its_signs(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);
        while (await visit.ScreenAsync() != "ear signs")
            await visit.AnswerAsync(Person.Swimmer);

        await visit.Now.GetByRole(AriaRole.Link, new() { Name = "Ear tube" }).Locator(".spot").ClickAsync();

        var place = visit.Now.Locator(".place:target");
        await Assertions.Expect(place).ToContainTextAsync("Ear tube");
        await Assertions.Expect(place).ToBeInViewportAsync();
        await visit.KeepPictureAsync("pointed");
        await Axe.FindsNothingAsync(visit, "a place pointed at");
        await place.Locator("label.pick").Filter(new() { HasText = "It feels blocked or full" }).First.Locator("input").CheckAsync();
        await visit.ContinueAsync();
        Assert.NotEqual("ear signs", await visit.ScreenAsync());
    }
}
