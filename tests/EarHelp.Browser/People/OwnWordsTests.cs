using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.People;

/// <summary>Somebody writes the whole story at once, in a hurry, and is understood.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class OwnWordsTests(Service service)
{
    const string Story =
        "back monday from ten days at a hostel by a river, swam daily, left ear feels blocked n cant hear people on the phone. used a cotton "
        + "bud once (sorry), olive oil drops since wednesday + its getting worse. no pain tho, was a bit dizzy getting out of bed yday";

    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task A_story_is_read_back_the_signs_in_it_are_asked_about_and_it_ends_in_a_plan(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.Now.Locator("textarea").FillAsync(Story);
        await visit.ContinueAsync();

        var question = visit.Now.GetByRole(AriaRole.Heading).First;
        await Expect(question).ToContainTextAsync("We understood: The left ear; Swimming. Is that right?");
        await Expect(visit.Now).ToContainTextAsync("we ask you next: Spinning, Hearing, Blocked, Pain, Hurt by poking");
        await visit.KeepPictureAsync("read-back");
        await Axe.FindsNothingAsync(visit, "what was understood");
        await visit.Now.GetByRole(AriaRole.Button, new() { Name = "Yes, that is right" }).ClickAsync();

        await Expect(visit.Now.Locator("input[name=screen]")).ToHaveValueAsync("other signs");
        await Expect(visit.Now).ToContainTextAsync("The room spins");
        await visit.AnswerAsync(Person.Swimmer);
        await Expect(visit.Now.Locator("input[name=screen]")).ToHaveValueAsync("hearing");
        await visit.ChooseAsync("Duller or quieter");
        await visit.ContinueAsync();
        await visit.KeepPictureAsync("after-own-words");
        while (await visit.Plan.CountAsync() == 0)
        {
            if (await visit.ScreenAsync() == "form")
                await visit.FillFormAsync(Person.Swimmer);
            else
                await visit.AnswerAsync(Person.Swimmer);
        }
    }

    [Fact]
    public async Task A_part_that_was_misunderstood_is_put_right_at_once()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named("phone-plain"));
        await visit.StartAsync();
        await visit.Now.Locator("textarea").FillAsync(Story);
        await visit.ContinueAsync();

        await visit.Now.GetByLabel("The left ear").UncheckAsync();
        await visit.Now.GetByRole(AriaRole.Button, new() { Name = "Yes, that is right" }).ClickAsync();

        while (await visit.ScreenAsync() != "ears affected")
            await visit.AnswerAsync(Person.Swimmer);
        await visit.ChooseAsync("The right ear");
        await visit.ContinueAsync();
        await Expect(visit.Now.GetByRole(AriaRole.Heading).First).ToContainTextAsync("right ear");
    }
}
