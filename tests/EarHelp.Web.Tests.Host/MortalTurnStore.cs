using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Web.Tests.Host;

/// <summary>The service's own store, with the points around keeping a turn.</summary>
sealed class MortalTurnStore(ITurnStore inner, Death death) : ITurnStore
{
    public async ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        death.PassBy(DeathPoint.Decided);
        var appending = inner.AppendAsync(record, newKeys, cancellation);
        death.PassBy(DeathPoint.Saving);
        var appended = await appending;
        death.PassBy(DeathPoint.Saved);
        return appended;
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) => inner.LoadAsync(conversation, cancellation);

    public ValueTask<bool> IsLastAsync(string conversation, int number, CancellationToken cancellation) => inner.IsLastAsync(conversation, number, cancellation);

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation) =>
        inner.FindByKeyAsync(keyHash, nowUnixMilliseconds, cancellation);

    public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) => inner.SpendKeyAsync(keyHash, cancellation);

    public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) => inner.EraseAsync(conversation, cancellation);

    public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation) =>
        inner.SweepUnfinishedAsync(lastTurnBeforeUnixMilliseconds, cancellation);
}
