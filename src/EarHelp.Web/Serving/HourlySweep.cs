namespace EarHelp.Web.Serving;

/// <summary>Removes one kind of thing whose time is over, ten seconds after the start, when the first patients have their page, and every hour.</summary>
/// <param name="things">What is removed, in the words of the log.</param>
public abstract partial class HourlySweep(string things, TimeProvider clock, ILogger log)
    : TimedWatch($"removing {things}", TimeSpan.FromSeconds(10), TimeSpan.FromHours(1), clock, log)
{
    readonly string _things = things;

    /// <returns>How many were removed.</returns>
    protected abstract ValueTask<int> RemoveAsync(DateTimeOffset now, CancellationToken stopping);

    protected override async Task LookAloneAsync(CancellationToken cancellation)
    {
        var removed = await RemoveAsync(Clock.GetUtcNow(), cancellation);
        if (removed > 0)
            LogRemoved(Log, removed, _things);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Removed {Count} {Things} whose time was over.")]
    static partial void LogRemoved(ILogger log, int count, string things);
}
