using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>
/// What is deleted still stands in the file: it goes as the live records are copied to a new one. One copy at a time, beside the writer; an
/// erasure that comes while one is made may be in it, and waits for the next.
/// </summary>
sealed class Renewal(StoreFile file) : IAsyncDisposable
{
    readonly CancellationTokenSource _closing = new();
    readonly Lock _ordering = new();
    Task _last = Task.CompletedTask;
    FileCopy? _copy;
    long _erased;
    long _settled;

    /// <summary>Says on the disk that something is about to be deleted. On the writer's thread.</summary>
    public void Announce()
    {
        file.Announce();
        Interlocked.Increment(ref _erased);
    }

    /// <summary>A record was written or deleted. On the writer's thread, after it was committed.</summary>
    public void Note(string collection, BsonValue id) => _copy?.Note(collection, id);

    /// <summary>Ends once nothing of what was deleted before stands in the file.</summary>
    /// <param name="doAsync">Has the writer's thread do something. Others may read meanwhile.</param>
    /// <exception cref="StoreFailedException">The store has failed or is being closed. What was erased goes at the next start.</exception>
    public Task RenewAsync(Func<Func<bool>, Task<bool>> doAsync)
    {
        lock (_ordering)
            return _last = AfterAsync(_last, Interlocked.Read(ref _erased), doAsync);
    }

    /// <summary>Ends a copy that is being made, and those that wait.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_closing.IsCancellationRequested)
            return;
        await _closing.CancelAsync().ConfigureAwait(false);
        await _last.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _closing.Dispose();
    }

    async Task AfterAsync(Task before, long wanted, Func<Func<bool>, Task<bool>> doAsync)
    {
        await before.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ForceYielding);
        while (Interlocked.Read(ref _settled) < wanted)
            await OnceAsync(doAsync).ConfigureAwait(false);
    }

    async Task OnceAsync(Func<Func<bool>, Task<bool>> doAsync)
    {
        var begunAt = 0L;
        FileCopy copy = null!;
        await doAsync(() =>
        {
            begunAt = Interlocked.Read(ref _erased);
            _copy = copy = new FileCopy(file);
            return true;
        }).ConfigureAwait(false);
        Exception? failure = null;
        try
        {
            while (!_closing.IsCancellationRequested && copy.GoOn())
            {
            }
        }
        catch (Exception met)
        {
            failure = met;
        }

        try
        {
            await doAsync(() => End(copy, begunAt, failure)).ConfigureAwait(false);
        }
        catch (StoreFailedException)
        {
            // It was refused, and never came to its end: the next one begins anew.
            _copy = null;
            copy.Abandon();
            throw;
        }
    }

    /// <summary>On the writer's thread, whose failure is the failure of the store.</summary>
    bool End(FileCopy copy, long begunAt, Exception? failure)
    {
        _copy = null;
        try
        {
            if (failure is not null)
                throw new InvalidOperationException("The file without what was erased could not be written: " + failure.Message, failure);
            if (_closing.IsCancellationRequested)
            {
                copy.Dispose();
                throw new StoreFailedException("The store is closed. What was erased is gone from its file at the next start.");
            }

            copy.Take();
            Interlocked.Exchange(ref _settled, begunAt);
            if (Interlocked.Read(ref _erased) == begunAt)
                file.Settle();
            return true;
        }
        catch (Exception met) when (met is not StoreFailedException)
        {
            copy.Abandon();
            throw;
        }
    }
}
