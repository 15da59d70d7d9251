using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;

namespace EarHelp.Web.Serving;

/// <summary>Removes conversations that were never finished and whose time is over, at start and every hour.</summary>
public sealed partial class UnfinishedSweep(
    ITurnStore store, TurnTaking taking, ServiceSettings settings, TimeProvider clock, ILogger<UnfinishedSweep> log) : BackgroundService
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

    async Task SweepAsync(CancellationToken stopping)
    {
        try
        {
            var before = clock.GetUtcNow() - settings.UnfinishedFor;
            var swept = await store.SweepUnfinishedAsync(before.ToUnixTimeMilliseconds(), stopping);
            if (swept == 0)
                return;
            taking.ForgetAll();
            LogSwept(log, swept);
        }
        catch (StoreFailedException failure)
        {
            LogFailed(log, failure.GetType().Name);
        }
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Removed {Count} unfinished conversations whose time was over.")]
    static partial void LogSwept(ILogger log, int count);

    [LoggerMessage(Level = LogLevel.Error, Message = "Unfinished conversations could not be removed ({Kind}); it is tried again in an hour.")]
    static partial void LogFailed(ILogger log, string kind);
}
