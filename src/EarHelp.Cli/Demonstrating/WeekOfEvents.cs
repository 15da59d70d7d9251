using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>What happens in the week, carried out in the order of time, whoever planned it first.</summary>
sealed class WeekOfEvents(MovedClock clock, Instant end)
{
    readonly PriorityQueue<Func<Task>, (Instant At, int Order)> _queue = new();
    int _planned;

    /// <summary>The moment up to which the week goes: nothing happens later.</summary>
    public Instant End => end;

    /// <summary>Plans something; what would come after the end does not happen.</summary>
    public void Plan(Instant at, Func<Task> happening)
    {
        if (at <= end)
            _queue.Enqueue(happening, (at, _planned++));
    }

    public async Task CarryOutAsync()
    {
        while (_queue.TryDequeue(out var happening, out var when))
        {
            clock.Now = when.At;
            await happening().ConfigureAwait(false);
        }
    }
}
