using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Editions;
using EarHelp.Web.Security;

namespace EarHelp.Web.CheckIns;

/// <summary>Every minute: messages that are due are sent, patients who are not well are brought before the desk, and what was corrected of a visit is told if it was not yet.</summary>
public sealed partial class CheckInWatch(
    IFollowUps followUps, IVisitStore visits, IRequestStore requests, WorseAfterVisit worse, VisitRecording recording, ServedEditions editions, TimeProvider clock, ILogger<CheckInWatch> log, IPost? post = null, CheckInMessage? message = null)
    : BackgroundService
{
    static readonly TimeSpan Pause = TimeSpan.FromMinutes(1);

    readonly SemaphoreSlim _oneAtATime = new(1, 1);

    /// <summary>How many patients said that something is not well and left the questions; as of the last minute.</summary>
    public int Left { get; private set; }

    public override void Dispose()
    {
        _oneAtATime.Dispose();
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Pause, clock);
        do
        {
            try
            {
                await LookAsync(stoppingToken);
            }
            catch (Exception failure) when (!stoppingToken.IsCancellationRequested)
            {
                // Whatever it was, the pages are served on, and it is looked once more.
                LogFailed(log, failure.GetType().Name);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    /// <summary>Looks once.</summary>
    public async Task LookAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            await recording.TellCorrectedAsync(Secret.NewIdentifier, cancellation);
            Left = await worse.LookAsync(cancellation);
            if (post is not null && message is not null && editions.Current is { } served)
                await SendAsync(post, message, served.Edition, cancellation);
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    async Task SendAsync(IPost mail, CheckInMessage words, Triage.Editions.Edition edition, CancellationToken cancellation)
    {
        var sent = await new Outbox(followUps, visits, requests, mail, Secret.New, clock).SendDueAsync(edition, words.WriteAsync, cancellation);
        if (sent > 0)
            LogSent(log, sent);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "{Count} messages were handed over to the mail server.")]
    static partial void LogSent(ILogger log, int count);

    [LoggerMessage(Level = LogLevel.Error, Message = "Check-ins could not be looked after ({Kind}); it is tried again in a minute.")]
    static partial void LogFailed(ILogger log, string kind);
}
