namespace EarHelp.Web.Serving;

/// <summary>Removes one kind of thing whose time is over, ten seconds after the start, when the first patients have their page, and every hour.</summary>
/// <param name="things">What is removed, in the words of the log.</param>
public abstract partial class HourlySweep(string things, TimeProvider clock, ILogger log) : BackgroundService
{
    static readonly TimeSpan First = TimeSpan.FromSeconds(10);
    static readonly TimeSpan Pause = TimeSpan.FromHours(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(First, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            timer.Period = Pause;
            await SweepAsync(stoppingToken);
        }
    }

    /// <returns>How many were removed.</returns>
    protected abstract ValueTask<int> RemoveAsync(DateTimeOffset now, CancellationToken stopping);

    async Task SweepAsync(CancellationToken stopping)
    {
        try
        {
            var removed = await RemoveAsync(clock.GetUtcNow(), stopping);
            if (removed > 0)
                LogRemoved(log, removed, things);
        }
        catch (Exception failure) when (!stopping.IsCancellationRequested)
        {
            LogFailed(log, things, failure.GetType().Name);
        }
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Removed {Count} {Things} whose time was over.")]
    static partial void LogRemoved(ILogger log, int count, string things);

    [LoggerMessage(Level = LogLevel.Error, Message = "The {Things} whose time is over could not be removed ({Kind}); it is tried again in an hour.")]
    static partial void LogFailed(ILogger log, string things, string kind);
}
