using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using EarHelp.Browser.Running;

namespace EarHelp.Browser.Checks;

/// <summary>The rules of the axe engine for WCAG 2.2, levels A and AA, and its best practices.</summary>
static class Axe
{
    static readonly List<string> Tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

    public static async Task FindsNothingAsync(Visit visit, string state)
    {
        var result = await visit.Page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = Tags } });

        var found = result.Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id} ({v.Impact}): {n.Html} {string.Join("; ", n.Any.Select(c => c.Message))}"));
        Assert.True(result.Violations.Length == 0, $"{state} on {visit.Device}:\n{string.Join('\n', found)}");
        Assert.NotEmpty(result.Passes);
    }
}
