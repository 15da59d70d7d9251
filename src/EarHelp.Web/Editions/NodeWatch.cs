using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Desk;

namespace EarHelp.Web.Editions;

/// <summary>
/// Takes up what other nodes did: an edition that was published, something that was withdrawn, a clinic that was closed, a conversation that
/// was erased, a request that changed.
/// </summary>
public sealed partial class NodeWatch(
    IKeptElsewhere elsewhere, ServedEditions editions, TurnTaking taking, ClosedAtOnce closed, DeskBell bell, TimeProvider clock, ILogger<NodeWatch> log) : BackgroundService
{
    static readonly TimeSpan Pause = TimeSpan.FromSeconds(0.5);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var preparing = Task.CompletedTask;
        await foreach (var change in elsewhere.ListenAsync(stoppingToken))
        {
            while (!await IsTakenUpAsync(change, stoppingToken))
                await Task.Delay(Pause, clock, stoppingToken);

            // Beside what is taken up: a withdrawal must not wait until an edition is compiled.
            if (change is ChangedElsewhere.Ledger or ChangedElsewhere.Anything)
                preparing = PrepareAsync(preparing, stoppingToken);
        }

        await preparing;
    }

    /// <summary>An edition must not be missed either because the database failed at that moment: it is looked for until it is at hand.</summary>
    /// <param name="earlier">One after the other.</param>
    async Task PrepareAsync(Task earlier, CancellationToken stopping)
    {
        await earlier;
        await Task.Yield();
        while (!await IsAtHandAsync(stopping))
            await Task.Delay(Pause, clock, stopping);
    }

    async Task<bool> IsAtHandAsync(CancellationToken stopping)
    {
        try
        {
            if (await editions.PrepareAsync(stopping) is { } signed)
                LogAtHand(log, signed);
            return true;
        }
        catch (Exception failure) when (!stopping.IsCancellationRequested)
        {
            LogNotAtHand(log, failure.Message);
            return false;
        }
    }

    /// <summary>A withdrawal must not be missed because the database, the disk or anything else failed at that moment: false means once more.</summary>
    async Task<bool> IsTakenUpAsync(ChangedElsewhere change, CancellationToken stopping)
    {
        try
        {
            await TakeUpAsync(change, stopping);
            return true;
        }
        catch (Exception failure) when (!stopping.IsCancellationRequested)
        {
            LogFailed(log, failure.Message);
            return false;
        }
    }

    async Task TakeUpAsync(ChangedElsewhere change, CancellationToken stopping)
    {
        switch (change)
        {
            case ChangedElsewhere.Ledger:
                await editions.FollowAsync(stopping);
                break;
            case ChangedElsewhere.Erased erased:
                taking.Forget(erased.Conversation);
                break;
            case ChangedElsewhere.Closings:
                await closed.ReadAsync(stopping);
                bell.Ring();
                break;
            case ChangedElsewhere.Requests:
                bell.Ring();
                break;
            case ChangedElsewhere.Anything:
                taking.ForgetAll();
                await closed.ReadAsync(stopping);
                bell.Ring();
                await editions.FollowAsync(stopping);
                break;
            default:
                throw new System.Diagnostics.UnreachableException();
        }
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Edition {Edition} was signed and is at hand: published at any node, it is served here at once.")]
    static partial void LogAtHand(ILogger log, string edition);

    [LoggerMessage(Level = LogLevel.Error, Message = "The edition that was signed last could not be read; it is tried again. {Reason}")]
    static partial void LogNotAtHand(ILogger log, string reason);

    [LoggerMessage(Level = LogLevel.Error, Message = "What another node did could not be taken up; it is tried again. {Reason}")]
    static partial void LogFailed(ILogger log, string reason);
}
