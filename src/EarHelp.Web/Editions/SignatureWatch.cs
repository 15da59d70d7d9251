using EarHelp.Web.Pages;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Editions;

/// <summary>
/// Writes the emergency page into the data folder anew once the signature under the served edition has run out. The pages themselves
/// look at every request.
/// </summary>
public sealed class SignatureWatch(ServedEditions editions, EmergencyFile emergency, TimeProvider clock) : BackgroundService
{
    static readonly TimeSpan Pause = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Pause, clock);
        do
        {
            if (editions.Current is { } current && emergency.IsSigned != current.IsSigned)
                emergency.Keep(Words.First(current));
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
