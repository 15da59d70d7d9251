using System.Net.Http.Headers;
using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.Pages;

/// <summary>The page is light, asks nobody else for anything, and only ever adds to the letter.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed class QuietTests(Service service)
{
    const int MostRequests = 3;
    const int MostBytes = 20 * 1024;

    [Fact]
    public async Task Only_its_own_origin_is_asked_for_anything()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);

        await visit.WholeWayAsync(Person.Swimmer);

        Assert.DoesNotContain(visit.Requested, url => !url.StartsWith(visit.Address.ToString(), StringComparison.Ordinal) && !url.StartsWith("data:", StringComparison.Ordinal));
        Assert.Empty(visit.Complaints);
    }

    [Fact]
    public async Task The_first_page_takes_at_most_three_requests_and_twenty_kilobytes()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);
        await visit.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        var requested = visit.Requested.Where(u => u.StartsWith("http", StringComparison.Ordinal)).ToList();

        var bytes = 0L;
        using var client = new HttpClient();
        client.DefaultRequestHeaders.AcceptEncoding.Add(new StringWithQualityHeaderValue("br"));
        client.DefaultRequestHeaders.AcceptEncoding.Add(new StringWithQualityHeaderValue("gzip"));
        foreach (var url in requested)
            bytes += (await client.GetByteArrayAsync(url)).Length;

        Assert.InRange(requested.Count, 1, MostRequests);
        Assert.InRange(bytes, 1, MostBytes);
    }

    [Fact]
    public async Task The_letter_only_ever_grows()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);
        await visit.Page.EvaluateAsync(
            """
            () => {
              window.lost = [];
              new MutationObserver((changes) => {
                for (const change of changes) for (const node of change.removedNodes)
                  if (node.nodeType === 1 && !node.matches(".ask")) window.lost.push(node.outerHTML.slice(0, 100));
              }).observe(document.querySelector("[role=log]"), { childList: true, subtree: true });
            }
            """);

        await visit.AnswerAsync(Person.Swimmer);
        await visit.AnswerAsync(Person.Swimmer);

        Assert.Empty(await visit.Page.EvaluateAsync<string[]>("() => window.lost"));
        Assert.Equal(1, await visit.Page.GetByRole(AriaRole.Log).CountAsync());
    }

    [Fact]
    public async Task Nothing_is_chosen_beforehand()
    {
        await using var visit = await Visit.BeginAsync(service, Device.Phone);
        await visit.StartAsync();
        Assert.Equal(0, await visit.Page.Locator("input:checked").CountAsync());
        await visit.FillFormAsync(Person.Swimmer);

        await visit.WalkToPlanAsync(Person.Swimmer, async () => Assert.Equal(0, await visit.Page.Locator("#now input:checked").CountAsync()));
    }

    [Fact]
    public async Task Until_it_is_signed_every_page_says_that_it_is_a_demonstration()
    {
        await using var visit = await Visit.BeginAsync(service, Device.PlainPhone);
        foreach (var path in (string[])["/", "/about", "/privacy", "/accessibility", "/abroad", "/nothing-is-here"])
        {
            await visit.Page.GotoAsync(new Uri(visit.Address, path).ToString());
            Assert.Contains("Demonstration, not for real patients", await visit.Page.InnerTextAsync("body"), StringComparison.Ordinal);
        }
    }
}
