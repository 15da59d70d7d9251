using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.People;

/// <summary>People go the whole way, on a desktop and a phone, with and without JavaScript.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class WholeWayTests(Service service)
{
    const int MostTapsOfAnOrdinaryEar = 12;

    [Theory]
    [InlineData("desktop")]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    [InlineData("phone-plain")]
    public async Task A_swimmer_with_a_blocked_ear_leaves_with_a_plan_in_twelve_screens(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.KeepPictureAsync("swimmer-0-first");
        await visit.StartAsync();
        await visit.KeepPictureAsync("swimmer-1-form");
        await visit.FillFormAsync(Person.Swimmer);
        var at = 1;

        var screens = await visit.WalkToPlanAsync(Person.Swimmer, async () =>
        {
            at++;
            await visit.KeepPictureAsync($"swimmer-{at}");
            await Axe.FindsNothingAsync(visit, $"screen {at}");
            await Looks.FitsItsWidthAsync(visit, $"screen {at}");
        });

        Assert.InRange(screens, 4, MostTapsOfAnOrdinaryEar);
        await HasWholePlanAsync(visit);
    }

    [Theory]
    [InlineData("phone")]
    [InlineData("phone-plain")]
    public async Task Suddenly_dull_hearing_is_to_be_seen_by_a_named_time_and_gets_no_drops(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));

        await visit.WholeWayAsync(Person.SuddenlyDull);

        await visit.KeepPictureAsync("suddenly-dull");
        var plan = await visit.Plan.InnerTextAsync();
        Assert.Matches(@"(?i)within a day|24 hours", plan);
        Assert.Matches(@"\d{1,2}:\d\d [ap]m on \w+day \d{1,2} \w+ \d{4}, UK time", plan);
        Assert.DoesNotContain("Oil drops for the ear may loosen", plan, StringComparison.OrdinalIgnoreCase);
        await HasWholePlanAsync(visit);
    }

    [Theory]
    [InlineData("desktop")]
    [InlineData("phone-plain")]
    public async Task A_sign_of_a_stroke_that_stands_third_brings_the_emergency_number_at_once(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.SlurredSpeech);

        var screens = await visit.WalkToPlanAsync(Person.SlurredSpeech);

        await visit.KeepPictureAsync("stroke");
        await Axe.FindsNothingAsync(visit, "stroke");
        Assert.InRange(screens, 1, 3);
        Assert.Contains("999", await visit.Plan.InnerTextAsync(), StringComparison.Ordinal);
        Assert.NotEqual(0, await visit.Page.Locator("main a[href='tel:999']").CountAsync());
    }

    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task Not_sure_to_everything_is_asked_in_other_words_and_ends_at_the_careful_side(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Unsure);
        var seen = new List<string?>();

        await visit.WalkToPlanAsync(Person.Unsure, async () =>
        {
            seen.Add(await visit.Now.CountAsync() > 0 ? await visit.ScreenAsync() : "plan");
            await visit.KeepPictureAsync($"unsure-{seen.Count}");
            await Axe.FindsNothingAsync(visit, $"unsure {seen.Count}");
        });

        Assert.True(seen.Count >= 3, $"a second wording came: {string.Join(", ", seen)}");
        Assert.Contains("999", await visit.Plan.InnerTextAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("phone")]
    [InlineData("phone-plain")]
    public async Task A_child_is_handed_over_within_a_day(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));

        await visit.WholeWayAsync(Person.Child);

        await visit.KeepPictureAsync("child");
        await Axe.FindsNothingAsync(visit, "child");
        var plan = await visit.Plan.InnerTextAsync();
        Assert.Matches(@"(?i)within a day|24 hours", plan);
        Assert.DoesNotContain("your ear", plan, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("Oil drops for the ear may loosen", plan, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task Someone_abroad_is_told_what_to_call_there_and_is_not_sent_to_this_clinic(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "See what to call there" }).ClickAsync();
        await visit.KeepPictureAsync("abroad-numbers");
        await Axe.FindsNothingAsync(visit, "numbers abroad");
        Assert.NotEqual(0, await visit.Page.GetByRole(AriaRole.Rowheader).CountAsync());
        await visit.Page.GotoAsync(visit.Address.ToString());

        await visit.WholeWayAsync(Person.Abroad);

        await visit.KeepPictureAsync("abroad");
        await Axe.FindsNothingAsync(visit, "abroad");
        Assert.DoesNotContain("Ear Clinic can see you in time", await visit.Plan.InnerTextAsync(), StringComparison.OrdinalIgnoreCase);
    }

    static async Task HasWholePlanAsync(Visit visit)
    {
        var headings = await visit.Plan.GetByRole(AriaRole.Heading).AllInnerTextsAsync();
        foreach (var needed in (string[])["How soon", "Where", "What would make it more urgent", "Why this answer", "What to tell the clinician", "Who decides"])
            Assert.Contains(headings, h => h.Contains(needed, StringComparison.OrdinalIgnoreCase));
        Assert.NotEqual(0, await visit.Page.GetByText("Something has changed").CountAsync());
        Assert.Empty(visit.Complaints);
    }
}
