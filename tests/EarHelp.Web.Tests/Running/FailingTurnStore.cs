using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Running;

/// <summary>A store that can be made to fail, as on a full or a broken disk.</summary>
public sealed class FailingTurnStore
{
    /// <summary>Null: it works.</summary>
    public Exception? OnAppend { get; set; }

    /// <summary>Null: it works.</summary>
    public Exception? OnRead { get; set; }

    /// <summary>A store that never keeps anything.</summary>
    public static void FailOnAppend(IServiceCollection services) =>
        new FailingTurnStore { OnAppend = new StoreFailedException("The disk is full.") }.Put(services);

    public void Put(IServiceCollection services)
    {
        var kept = services.Last(s => s.ServiceType == typeof(ITurnStore));
        services.AddSingleton<ITurnStore>(parts => new Switched((ITurnStore)kept.ImplementationFactory!(parts), this));
    }

    sealed class Switched(ITurnStore inner, FailingTurnStore faults) : ITurnStore
    {
        public ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation) =>
            faults.OnAppend is { } fault ? throw fault : inner.AppendAsync(record, newKeys, cancellation);

        public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) =>
            faults.OnRead is { } fault ? throw fault : inner.LoadAsync(conversation, cancellation);

        public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation) =>
            faults.OnRead is { } fault ? throw fault : inner.FindByKeyAsync(keyHash, nowUnixMilliseconds, cancellation);

        public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) => inner.SpendKeyAsync(keyHash, cancellation);

        public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) => inner.EraseAsync(conversation, cancellation);

        public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation) =>
            inner.SweepUnfinishedAsync(lastTurnBeforeUnixMilliseconds, cancellation);
    }
}
