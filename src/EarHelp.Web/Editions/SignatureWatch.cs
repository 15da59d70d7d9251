using EarHelp.Web.Pages;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Editions;

/// <summary>
/// Writes the emergency page into the data folder anew once the signature under the served edition has run out. The pages themselves
/// look at every request.
/// </summary>
public sealed partial class SignatureWatch(ServedEditions editions, EmergencyFile emergency, TimeProvider clock, ILogger<SignatureWatch> log) : BackgroundService
{
    static readonly TimeSpan Pause = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Pause, clock);
        do
        {
            try
            {
                if (editions.Current is { } current && emergency.IsSigned != current.IsSigned)
                {
                    emergency.Keep(Words.First(current));
                    LogChanged(log, current.Edition.Id, current.IsSigned ? "signed" : "not signed, or not any more: every page says that it is a demonstration");
                }
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
            {
                LogFailed(log, failure.Message);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The served edition {Edition} is {Signed}; the emergency page in the data folder was written anew.")]
    static partial void LogChanged(ILogger log, string edition, string signed);

    [LoggerMessage(Level = LogLevel.Error, Message = "The emergency page could not be written into the data folder; it is tried again. {Reason}")]
    static partial void LogFailed(ILogger log, string reason);
}
