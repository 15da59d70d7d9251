using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.People;

[Collection(ServiceAndBrowser.Name)]
public sealed class GoingBackTests(Service service)
{
    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task An_earlier_answer_is_changed_and_the_plan_follows(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.WholeWayAsync(Person.SuddenlyDull);
        var before = await visit.Plan.InnerTextAsync();

        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Show all answers" }).ClickAsync();
        await visit.KeepPictureAsync("all-answers");
        await Axe.FindsNothingAsync(visit, "all answers");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Change the answer: Hearing (left ear)" }).First.ClickAsync();
        await Assertions.Expect(visit.Now.Locator("input[name=screen]")).ToHaveValueAsync("hearing");
        await visit.KeepPictureAsync("change-asked");
        await Axe.FindsNothingAsync(visit, "an earlier question asked again");
        await visit.ChooseAsync("The same as before");
        await visit.ContinueAsync();
        await visit.WalkToPlanAsync(Person.Swimmer);

        await visit.KeepPictureAsync("change-plan");
        await Axe.FindsNothingAsync(visit, "the plan after a change");
        Assert.NotEqual(before, await visit.Plan.Last.InnerTextAsync());
    }

    [Theory]
    [InlineData("phone")]
    [InlineData("phone-plain")]
    public async Task After_a_reload_the_conversation_goes_on_where_it_was(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);
        await visit.AnswerAsync(Person.Swimmer);
        var screen = await visit.ScreenAsync();

        await visit.Page.ReloadAsync();

        Assert.Equal(screen, await visit.ScreenAsync());
        await visit.KeepPictureAsync("after-reload");
        await Axe.FindsNothingAsync(visit, "after a reload");
        await visit.WalkToPlanAsync(Person.Swimmer);
    }

    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task Something_has_changed_asks_the_danger_signs_again(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.WholeWayAsync(Person.Swimmer);

        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Something has changed" }).First.ClickAsync();

        await Assertions.Expect(visit.Now).ToBeVisibleAsync();
        Assert.Equal("danger signs", await visit.ScreenAsync());
        await visit.KeepPictureAsync("changed-asked");
        await Axe.FindsNothingAsync(visit, "the danger signs again");
    }

    [Theory]
    [InlineData("desktop")]
    [InlineData("phone-plain")]
    public async Task A_private_link_opens_the_conversation_on_another_device_by_a_button(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Come back later" }).ClickAsync();
        await visit.KeepPictureAsync("link");
        await Axe.FindsNothingAsync(visit, "the private link");
        var link = await visit.Page.Locator("#link").InnerTextAsync();
        await using var elsewhere = await Visit.BeginAsync(service, Device.Phone);

        await elsewhere.Page.GotoAsync(link.Trim());
        await Axe.FindsNothingAsync(elsewhere, "the page behind the private link");
        await elsewhere.Page.GetByRole(AriaRole.Button, new() { Name = "Open my conversation" }).ClickAsync();

        Assert.Equal("danger signs", await elsewhere.ScreenAsync());
        Assert.DoesNotContain(link.Trim().Split('/')[^1], elsewhere.Page.Url, StringComparison.Ordinal);
    }
}
