namespace EarHelp.Servers.Host;

/// <summary>The browser in which people are tried and pages timed.</summary>
public static class Chromium
{
    /// <summary>The one without windows, which does the same in half the time; else the whole one. Both are Debian's.</summary>
    public static string Program { get; } = Array.Find(["/usr/bin/chromium-headless-shell", "/usr/bin/chromium"], File.Exists)
        ?? throw new InvalidOperationException("There is no Chromium here: apt-get install chromium-headless-shell");
}
