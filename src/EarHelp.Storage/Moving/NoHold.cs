namespace EarHelp.Storage.Moving;

/// <summary>Of a store that one process has to itself anyway.</summary>
sealed class NoHold : IAsyncDisposable
{
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
