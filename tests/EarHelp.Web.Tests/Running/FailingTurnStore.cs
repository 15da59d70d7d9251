using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Running;

/// <summary>A store whose disk is full: it reads, but keeps nothing.</summary>
public sealed class FailingTurnStore(ITurnStore inner) : ITurnStore
{
    public static void FailOnAppend(IServiceCollection services)
    {
        var kept = services.Last(s => s.ServiceType == typeof(ITurnStore));
        services.AddSingleton<ITurnStore>(parts => new FailingTurnStore((ITurnStore)kept.ImplementationFactory!(parts)));
    }

    public ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation) =>
        throw new StoreFailedException("The disk is full.");

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) =>
        inner.LoadAsync(conversation, cancellation);

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation) =>
        inner.FindByKeyAsync(keyHash, nowUnixMilliseconds, cancellation);

    public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) => inner.SpendKeyAsync(keyHash, cancellation);

    public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) => inner.EraseAsync(conversation, cancellation);

    public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation) =>
        inner.SweepUnfinishedAsync(lastTurnBeforeUnixMilliseconds, cancellation);
}
