using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using EarHelp.Browser.Running;

namespace EarHelp.Browser.Checks;

/// <summary>The rules of the axe engine for WCAG 2.2, levels A and AA, and its best practices.</summary>
/// <remarks>
/// With forced colours the reader's own system chooses both colours, and axe pairs the page's text with the system's ground.
/// Axe is a script: what a reader without script sees is laid open for it in a second window, where the page's own script stays out.
/// </remarks>
static class Axe
{
    static readonly List<string> Tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

    public static async Task FindsNothingAsync(Visit visit, string state)
    {
        if (!visit.Device.HasScript)
        {
            await using var twin = await visit.TwinWithScriptAsync();
            await FindsNothingAsync(twin, state);
            return;
        }

        await visit.Page.EvaluateAsync("() => Promise.all(document.getAnimations().map((a) => a.finished))");
        var options = new AxeRunOptions
        {
            RunOnly = new RunOnlyOptions { Type = "tag", Values = Tags },
            ResultTypes = [ResultType.Violations],   // of what passes, one element for each rule
        };
        if (visit.Device.Forced == Microsoft.Playwright.ForcedColors.Active)
            options.Rules = new Dictionary<string, RuleOptions> { ["color-contrast"] = new() { Enabled = false } };
        var result = await visit.Page.RunAxe(options);

        var found = result.Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id} ({v.Impact}): {n.Html} {string.Join("; ", n.Any.Select(c => c.Message))}"));
        Assert.True(result.Violations.Length == 0, $"{state} on {visit.Device}:\n{string.Join('\n', found)}");
        Assert.NotEmpty(result.Passes);
    }
}
