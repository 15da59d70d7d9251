using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>One thing for the writer to do.</summary>
abstract class Request
{
    /// <summary>Called on the writer's thread once what it did is on the disk.</summary>
    public abstract void Answer();

    public abstract void Fail(Exception failure);
}

/// <summary>An append; many of them share one commit.</summary>
sealed class AppendRequest(TurnRecord record, ImmutableArray<ConversationKey> keys) : Request
{
    readonly TaskCompletionSource<Appended> _done = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <exception cref="StoreFailedException">The turn is longer than a store takes.</exception>
    public static AppendRequest Of(TurnRecord record, ImmutableArray<ConversationKey> keys, int largestBodyBytes)
    {
        ArgumentNullException.ThrowIfNull(record);
        return record.Body.Length <= largestBodyBytes
            ? new AppendRequest(record, keys)
            : throw new StoreFailedException($"A turn of {record.Body.Length} bytes is over the limit of {largestBodyBytes} bytes.");
    }

    public TurnRecord Record => record;

    public ImmutableArray<ConversationKey> Keys => keys;

    public Appended? Result { get; set; }

    public Task<Appended> Done => _done.Task;

    public override void Answer() => _done.TrySetResult(Result!);

    public override void Fail(Exception failure) => _done.TrySetException(failure);
}

/// <summary>Work that has a transaction, or a whole file, of its own.</summary>
/// <param name="isAlone">False for long work that lets others in itself.</param>
sealed class WorkRequest<T>(Func<T> work, bool isAlone = true) : Request, IWork
{
    readonly TaskCompletionSource<T> _done = new(TaskCreationOptions.RunContinuationsAsynchronously);
    T? _result;

    public Task<T> Done => _done.Task;

    public bool IsAlone => isAlone;

    public void Do() => _result = work();

    public override void Answer() => _done.TrySetResult(_result!);

    public override void Fail(Exception failure) => _done.TrySetException(failure);
}

interface IWork
{
    /// <summary>Whether nobody may read meanwhile.</summary>
    bool IsAlone { get; }

    void Do();
}
