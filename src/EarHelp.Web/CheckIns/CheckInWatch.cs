using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Editions;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;

namespace EarHelp.Web.CheckIns;

/// <summary>Every minute: messages that are due are sent, patients who are not well are brought before the desk, and what was corrected of a visit is told if it was not yet.</summary>
public sealed partial class CheckInWatch(
    IFollowUps followUps, IVisitStore visits, IRequestStore requests, WorseAfterVisit worse, VisitRecording recording, ServedEditions editions, TimeProvider clock, ILogger<CheckInWatch> log, IPost? post = null, CheckInMessage? message = null)
    : TimedWatch("check-ins", TimeSpan.Zero, TimeSpan.FromMinutes(1), clock, log)
{
    /// <summary>How many patients said that something is not well and left the questions; as of the last minute.</summary>
    public int Left { get; private set; }

    protected override async Task LookAloneAsync(CancellationToken cancellation)
    {
        await recording.TellCorrectedAsync(Secret.NewIdentifier, cancellation);
        Left = await worse.LookAsync(cancellation);
        if (post is not null && message is not null && editions.Current is { } served)
            await SendAsync(post, message, served.Edition, cancellation);
    }

    async Task SendAsync(IPost mail, CheckInMessage words, Triage.Editions.Edition edition, CancellationToken cancellation)
    {
        var sent = await new Outbox(followUps, visits, requests, mail, Secret.New, Clock).SendDueAsync(edition, words.WriteAsync, cancellation);
        if (sent > 0)
            LogSent(Log, sent);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "{Count} messages were handed over to the mail server.")]
    static partial void LogSent(ILogger log, int count);
}
