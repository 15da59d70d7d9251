using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Editions;

namespace EarHelp.Web.Visits;

/// <summary>Removes requests, and how to reach who asked, once their days are over; at start and every hour.</summary>
public sealed partial class RequestSweep(IRequestStore store, ServedEditions editions, TimeProvider clock, ILogger<RequestSweep> log) : BackgroundService
{
    static readonly TimeSpan Pause = TimeSpan.FromHours(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Pause, clock);
        do
        {
            await SweepAsync(stoppingToken);
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    /// <summary>Without an edition nobody knows how many days it is: nothing is removed then.</summary>
    async Task SweepAsync(CancellationToken stopping)
    {
        if (editions.Current is not { } served || served.Edition.Clinic.RequestKeptDays is not (> 0 and var days))
            return;
        try
        {
            var before = clock.GetUtcNow() - TimeSpan.FromDays(days);
            var swept = await store.SweepRequestsAsync(before.ToUnixTimeMilliseconds(), stopping);
            if (swept > 0)
                LogSwept(log, swept);
        }
        catch (StoreFailedException failure)
        {
            LogFailed(log, failure.GetType().Name);
        }
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Removed {Count} requests for visits whose time was over.")]
    static partial void LogSwept(ILogger log, int count);

    [LoggerMessage(Level = LogLevel.Error, Message = "Requests for visits could not be removed ({Kind}); it is tried again in an hour.")]
    static partial void LogFailed(ILogger log, string kind);
}
