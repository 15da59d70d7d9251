namespace Benchmarks.Serving;

/// <summary>One connection that sends turns, one after the other.</summary>
interface ITurnSender : IDisposable
{
    /// <summary>Sends what must come before the next turn and is not timed, e.g. the first page of a new conversation.</summary>
    Task PrepareAsync();

    /// <summary>Sends one turn and reads the whole answer.</summary>
    Task SendAsync();
}
