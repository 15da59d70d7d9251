using Microsoft.Playwright;

namespace EarHelp.Browser.Running;

/// <summary>On what a page is read.</summary>
/// <param name="HasScript">False: JavaScript is switched off.</param>
public sealed record Device(string Name, int Width, int Height, bool HasScript)
{
    public ColorScheme Colours { get; init; } = ColorScheme.Light;

    public ForcedColors Forced { get; init; } = ForcedColors.None;

    public ReducedMotion Motion { get; init; } = ReducedMotion.NoPreference;

    public static Device Desktop { get; } = new("desktop", 1280, 900, HasScript: true);

    public static Device Phone { get; } = new("phone", 360, 740, HasScript: true);

    public static Device PlainDesktop { get; } = Desktop with { Name = "desktop-plain", HasScript = false };

    public static Device PlainPhone { get; } = Phone with { Name = "phone-plain", HasScript = false };

    /// <summary>The width of 1280 pixels at 400 % zoom, as WCAG 2.2 criterion 1.4.10 measures it.</summary>
    public static Device Zoomed { get; } = new("zoomed", 320, 256, HasScript: true);

    public static Device Dark { get; } = Phone with { Name = "phone-dark", Colours = ColorScheme.Dark };

    public static Device ForcedColours { get; } = Desktop with { Name = "desktop-forced", Forced = ForcedColors.Active };

    public static Device Still { get; } = Phone with { Name = "phone-still", Motion = ReducedMotion.Reduce };

    public static Device Named(string name) => All.Single(d => d.Name == name);

    public static IReadOnlyList<Device> All { get; } = [Desktop, Phone, PlainDesktop, PlainPhone, Zoomed, Dark, ForcedColours, Still];

    public override string ToString() => Name;
}
