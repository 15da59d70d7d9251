using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.People;

/// <summary>Many who come here cannot hear well: wherever a telephone number stands, a way without hearing stands beside it.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class CannotTelephoneTests(Service service)
{
    [Fact]
    public async Task Beside_each_telephone_number_stands_a_way_without_hearing()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);
        await HasTwinsAsync(visit, "first page");
        await visit.StartAsync();
        await visit.FillFormAsync(Person.SuddenlyDull);

        await visit.WalkToPlanAsync(Person.SuddenlyDull, () => HasTwinsAsync(visit, "on the way"));

        await HasTwinsAsync(visit, "plan");
    }

    [Theory]
    [InlineData("/abroad")]
    [InlineData("/about")]
    [InlineData("/privacy")]
    [InlineData("/accessibility")]
    [InlineData("/complaints")]
    [InlineData("/receipt")]
    [InlineData("/nothing-is-here")]
    public async Task Every_other_page_has_them_too(string path)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);

        await visit.Page.GotoAsync(new Uri(visit.Address, path).ToString());

        await HasTwinsAsync(visit, path);
    }

    [Fact]
    public async Task The_numbers_abroad_name_a_way_without_hearing_for_each_country()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);
        await visit.Page.GotoAsync(new Uri(visit.Address, "/abroad").ToString());

        foreach (var row in await visit.Page.Locator("tbody tr").AllAsync())
            Assert.All(await row.GetByRole(AriaRole.Cell).AllInnerTextsAsync(), cell => Assert.NotEqual(string.Empty, cell.Trim()));
    }

    /// <summary>Each part of the page that holds a telephone link also speaks of a text message, a relay service or e-mail.</summary>
    static async Task HasTwinsAsync(Visit visit, string state)
    {
        var alone = await visit.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll("a[href^='tel:']")]
              .filter((a) => a.offsetParent !== null)
              .filter((a) => !/without hearing|\btext\b|relay|e-?mail|write to/i.test((a.closest("aside, section, article, footer, .alarm, li") ?? a.parentElement).innerText
                + (a.closest("ul, ol, section, article, aside, footer")?.innerText ?? "")))
              .map((a) => a.closest("p, li, div").innerText)
            """);

        Assert.True(alone.Length == 0, $"{state}: {string.Join(" | ", alone)}");
    }
}
