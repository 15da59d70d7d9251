using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.Pages;

/// <summary>The page in the settings that people read with.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class ReadingTests(Service service)
{
    /// <summary>The spacing that WCAG 2.2, criterion 1.4.12, lets a reader set.</summary>
    const string ReadersSpacing =
        "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; } p { margin-bottom: 2em !important; }";

    [Theory]
    [InlineData("phone-dark")]
    [InlineData("desktop-forced")]
    [InlineData("phone-still")]
    [InlineData("zoomed")]
    public async Task Every_state_passes_in_every_setting(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await LooksRightAsync(visit, "first page");
        await visit.StartAsync();
        await LooksRightAsync(visit, "form");
        await visit.FillFormAsync(Person.SuddenlyDull);
        var at = 0;

        await visit.WalkToPlanAsync(Person.SuddenlyDull, () => LooksRightAsync(visit, $"state-{++at}"));
    }

    [Fact]
    public async Task A_readers_own_spacing_loses_nothing()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Zoomed);
        await visit.WholeWayAsync(Person.Swimmer);

        await visit.Page.EvaluateAsync(
            "(css) => { const sheet = new CSSStyleSheet(); sheet.replaceSync(css); document.adoptedStyleSheets = [sheet]; }", ReadersSpacing);

        await Looks.FitsItsWidthAsync(visit, "plan with a reader's spacing");
        var cut = await visit.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll("main *")].filter((e) => e.innerText?.trim() && !e.closest(".heard, [hidden]")
              && ["hidden", "clip"].includes(getComputedStyle(e).overflowY) && e.scrollHeight > e.clientHeight + 2).map((e) => e.innerText.slice(0, 60))
            """);
        Assert.Empty(cut);
    }

    [Fact]
    public async Task Nothing_moves_for_those_who_want_no_motion()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Still);
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);

        var moving = await visit.Page.EvaluateAsync<int>("() => document.getAnimations().filter((a) => a.effect.getComputedTiming().duration > 10).length");

        Assert.Equal(0, moving);
    }

    [Fact]
    public async Task The_title_says_what_is_asked()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Desktop);
        var titles = new List<string> { await visit.Page.TitleAsync() };
        await visit.StartAsync();
        titles.Add(await visit.Page.TitleAsync());
        await visit.FillFormAsync(Person.Swimmer);

        await visit.WalkToPlanAsync(Person.Swimmer, async () => titles.Add(await visit.Page.TitleAsync()));

        Assert.Contains("plan", titles[^1], StringComparison.OrdinalIgnoreCase);
        Assert.True(titles.Distinct().Count() >= titles.Count - 1, string.Join('\n', titles));
    }

    [Fact]
    public async Task The_emergency_line_stands_in_the_same_place_and_words_in_every_state()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);
        var first = await StripAsync(visit);
        await visit.StartAsync();
        Assert.Equal(first, await StripAsync(visit));
        await visit.FillFormAsync(Person.Swimmer);

        await visit.WalkToPlanAsync(Person.Swimmer, async () => Assert.Equal(first, await StripAsync(visit)));
    }

    static Task<string> StripAsync(Visit visit) => visit.Page.EvaluateAsync<string>(
        """
        () => {
          const strip = document.querySelector("aside.strip");
          scrollTo(0, 0);
          const box = strip.getBoundingClientRect();
          return [strip.innerText, Math.round(box.left), Math.round(box.top), Math.round(box.width), Math.round(box.height)].join("|");
        }
        """);

    static async Task LooksRightAsync(Visit visit, string state)
    {
        await visit.KeepPictureAsync($"setting-{state.Replace(' ', '-')}");
        await Axe.FindsNothingAsync(visit, state);
        await Looks.FitsItsWidthAsync(visit, state);
    }
}
