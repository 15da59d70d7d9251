namespace EarHelp.Web.Desk;

/// <summary>Rings whenever a request has changed, so that an open desk looks again.</summary>
public sealed class DeskBell
{
    TaskCompletionSource _next = New();

    /// <summary>Done at the next ring after it was asked for.</summary>
    public Task Next => Volatile.Read(ref _next).Task;

    public void Ring() => Interlocked.Exchange(ref _next, New()).TrySetResult();

    static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
