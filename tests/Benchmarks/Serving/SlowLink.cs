using System.Diagnostics;
using Benchmarks.Figures;
using EarHelp.Servers.Host;
using Microsoft.Playwright;

namespace Benchmarks.Serving;

/// <summary>A real browser whose connection is made slow by the browser itself.</summary>
static class SlowLink
{
    public const string Words = "400 kbit/s and 400 ms a request";

    const int Visits = 5;
    const int BytesASecond = 400_000 / 8;
    const int MillisecondsARequest = 400;

    /// <summary>Median of visits by browsers that were never here before.</summary>
    public static async Task<double> MillisecondsUntilUsableAsync(Uri address)
    {
        using var playwright = await Playwright.CreateAsync();
        await using var browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = Chromium.Program, Args = ["--no-sandbox"] });
        var samples = new Samples();
        for (var visit = 0; visit < Visits; visit++)
        {
            await using var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 360, Height = 740 } });
            var page = await context.NewPageAsync();
            var session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Network.enable");
            await session.SendAsync("Network.emulateNetworkConditions", new Dictionary<string, object>
            {
                ["offline"] = false,
                ["latency"] = MillisecondsARequest,
                ["downloadThroughput"] = BytesASecond,
                ["uploadThroughput"] = BytesASecond,
            });
            var from = Stopwatch.GetTimestamp();
            await page.GotoAsync(address.ToString(), new() { WaitUntil = WaitUntilState.DOMContentLoaded });
            await page.Locator("#now button").First.WaitForAsync(new() { State = WaitForSelectorState.Visible });
            samples.Add(Stopwatch.GetElapsedTime(from));
        }

        return samples.Median / 1000;
    }
}
