using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Serving;

/// <summary>
/// Reads one message as soon as the service has started, and keeps nothing of it: so the first patient who writes does not wait for the
/// reader to be made ready. The message is the example that the first page shows.
/// </summary>
public sealed class FirstMessageRead(ServedEditions editions, TimeProvider clock) : BackgroundService
{
    protected override Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (editions.Current is { } served)
        {
            var message = new TurnContent.Typed(Words.First(served)["first message hint"]);
            Conversing.Step(served, state: null, new Turn(nameof(FirstMessageRead), null, message), Instant.FromDateTimeOffset(clock.GetUtcNow()));
        }

        return Task.CompletedTask;
    }
}
