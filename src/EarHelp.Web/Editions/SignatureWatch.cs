using EarHelp.Web.Pages;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Editions;

/// <summary>
/// Writes the emergency page into the data folder anew once the signature under the served edition has run out. The pages themselves
/// look at every request.
/// </summary>
public sealed partial class SignatureWatch(ServedEditions editions, EmergencyFile emergency, TimeProvider clock, ILogger<SignatureWatch> log)
    : TimedWatch("emergency page", TimeSpan.Zero, TimeSpan.FromMinutes(1), clock, log)
{
    protected override Task LookAloneAsync(CancellationToken cancellation)
    {
        if (editions.Current is { } current && emergency.IsSigned != current.IsSigned)
        {
            emergency.Keep(Words.First(current));
            LogChanged(Log, current.Edition.Id, current.IsSigned ? "signed" : "not signed, or not any more: every page says that it is a demonstration");
        }

        return Task.CompletedTask;
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The served edition {Edition} is {Signed}; the emergency page in the data folder was written anew.")]
    static partial void LogChanged(ILogger log, string edition, string signed);
}
