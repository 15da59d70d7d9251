namespace EarHelp.Web.Security;

/// <summary>
/// The least that code which is not ours may log, whatever the settings ask for: below an error, the server and the bot SDK write
/// addresses, which can hold a private link, and whole messages.
/// </summary>
static class LogFloor
{
    const string Ours = "EarHelp";
    const LogLevel Least = LogLevel.Error;

    internal static void Apply(LoggerFilterOptions options)
    {
        for (var i = 0; i < options.Rules.Count; i++)
        {
            var rule = options.Rules[i];
            var isOurs = rule.CategoryName?.StartsWith(Ours, StringComparison.OrdinalIgnoreCase) ?? false;
            if (!isOurs && (rule.LogLevel ?? LogLevel.Trace) < Least)
                options.Rules[i] = new LoggerFilterRule(rule.ProviderName, rule.CategoryName, Least, rule.Filter);
        }
    }
}
