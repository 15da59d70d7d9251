using EarHelp.Browser.Running;
using Microsoft.Playwright;

namespace EarHelp.Browser.Checks;

/// <summary>What can be measured about a page beyond axe.</summary>
static class Looks
{
    /// <summary>A page that has loaded: kept as a picture, without anything that axe finds, and no wider than its window.</summary>
    public static async Task WellAsync(Visit visit, string state)
    {
        await visit.Page.WaitForLoadStateAsync(LoadState.Load);
        await visit.KeepPictureAsync(state);
        await Axe.FindsNothingAsync(visit, state);
        await FitsItsWidthAsync(visit, state);
    }

    /// <summary>WCAG 2.2, 1.4.10: nothing has to be scrolled in two directions.</summary>
    public static async Task FitsItsWidthAsync(Visit visit, string state)
    {
        var tooWide = await visit.Page.EvaluateAsync<string[]>(
            """
            () => {
              const width = document.documentElement.clientWidth;
              const whole = document.documentElement.scrollWidth > width ? [`page: ${document.documentElement.scrollWidth}`] : [];
              const parts = [...document.querySelectorAll("body *")].filter((e) => {
                const box = e.getBoundingClientRect();
                return box.width > 0 && box.right > width + 1 && getComputedStyle(e).position !== "absolute" && !e.closest("[class=heard]");
              }).map((e) => `${e.tagName}.${e.className}: ${Math.round(e.getBoundingClientRect().right)}`);
              return whole.length ? [...whole, ...parts] : [];
            }
            """);

        Assert.True(tooWide.Length == 0, $"{state} on {visit.Device} is wider than the window: {string.Join(", ", tooWide)}");
    }

    /// <summary>Focus is on something that can be seen, and nothing lies over it (WCAG 2.2, 2.4.7 and 2.4.11).</summary>
    /// <remarks>A page that was loaded whole sets its focus when its script runs: that is waited for.</remarks>
    public static async Task FocusCanBeSeenAsync(Visit visit, string state)
    {
        await visit.Page.WaitForLoadStateAsync(LoadState.Load);
        var trouble = await visit.Page.EvaluateAsync<string?>(
            """
            () => {
              const e = document.activeElement;
              if (!e || e === document.body || e === document.documentElement) return "focus is on the body";
              const box = e.getBoundingClientRect();
              if (box.width === 0 || box.height === 0) return `focus is on something without size: ${e.outerHTML.slice(0, 120)}`;
              if (box.bottom <= 0 || box.top >= innerHeight) return `focus is out of sight: ${e.outerHTML.slice(0, 120)}`;
              const x = Math.min(Math.max(box.left + Math.min(box.width / 2, 20), 1), innerWidth - 2);
              const y = Math.min(Math.max(box.top + Math.min(box.height / 2, 10), 1), innerHeight - 2);
              const top = document.elementFromPoint(x, y);
              return top && (e.contains(top) || top.contains(e) || top.closest("label")?.contains(e)) ? null : `focus is covered by ${top?.outerHTML.slice(0, 120)}`;
            }
            """);

        Assert.True(trouble is null, $"{state} on {visit.Device}: {trouble}");
    }

    /// <summary>Something about the focused control differs from when it has no focus.</summary>
    public static async Task FocusIsDrawnAsync(Visit visit, string state)
    {
        var style = await visit.Page.EvaluateAsync<string>(
            "() => { const s = getComputedStyle(document.activeElement); return [s.outlineStyle, s.outlineWidth, s.boxShadow].join(' '); }");

        Assert.False(style.StartsWith("none", StringComparison.Ordinal) && style.EndsWith("none", StringComparison.Ordinal), $"{state}: the focus of {style} is not drawn");
    }
}
