using System.Collections.Immutable;
using System.Reflection;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Taking;

/// <summary>Takes turns: load, decide, save, and only then answer, from the saved record.</summary>
public sealed class TurnTaking(ITurnStore store, IEditionShelf shelf, TimeProvider clock)
{
    /// <summary>States kept at hand; one takes a few kilobytes.</summary>
    const int StatesAtHand = 5_000;

    readonly KnownStates _states = new(StatesAtHand);

    public static string EngineVersion { get; } =
        typeof(TurnTaking).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";

    /// <param name="conversation">A new conversation is begun by <see cref="TurnContent.Begin"/> under an identifier that the caller made.</param>
    /// <param name="newKeys">What opens the conversation from this turn on.</param>
    public async ValueTask<TurnTaken> TakeAsync(
        string conversation, Turn turn, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(turn);
        ServedEdition? edition = null;
        Stepped? stepped = null;
        var language = shelf.Current.DefaultLanguage;
        var isNew = turn.Content is TurnContent.Begin;
        try
        {
            while (true)
            {
                // A first turn begins what is not there yet; if it is there after all, the store says so and it is read.
                var state = _states.Find(conversation) ?? (isNew ? null : await FoldAsync(conversation, cancellation).ConfigureAwait(false));
                if (state is null && turn.Content is not TurnContent.Begin)
                    return new TurnTaken.Unknown();
                edition = state is null ? shelf.Current : await EditionAsync(state.EditionId, cancellation).ConfigureAwait(false);
                if (state is not null && shelf.IsSuperseded(edition.Edition.Id) && shelf.Current is var corrected && corrected.Edition.Id != state.EditionId)
                    (edition, state) = (corrected, Moving.Into(corrected, edition, state));
                language = state?.Language ?? language;
                var now = Now();
                var withdrawn = shelf.Withdrawn is { IsNone: false } some ? some : null;
                stepped = Conversing.Step(edition, state, turn, now, withdrawn);
                var record = TurnRecord.Chain(
                    conversation,
                    stepped.State.Number,
                    turn.Id,
                    now.ToUnixTimeMilliseconds(),
                    edition.Edition.Id,
                    EngineVersion,
                    stepped.State.HasOutcome,
                    TurnJson.Write(new TurnBody(TurnBody.CurrentVersion, turn, stepped.Replies, withdrawn)),
                    state?.Hash ?? string.Empty);
                switch (await store.AppendAsync(record, newKeys, cancellation).ConfigureAwait(false))
                {
                    case Appended.Kept:
                        var kept = stepped.State with { Hash = record.Hash };
                        _states.Put(conversation, kept);
                        return new TurnTaken.Kept(conversation, record.Number, stepped.Replies, edition, kept, false);
                    case Appended.Repeated repeated:
                        return await RepeatAsync(conversation, repeated.Earlier, edition, cancellation).ConfigureAwait(false);
                    default:
                        _states.Forget(conversation);
                        isNew = false;
                        break;
                }
            }
        }
        catch (Exception failure) when (failure is StoreFailedException or EditionGoneException)
        {
            _states.Forget(conversation);
            return stepped is null || edition is null
                ? Lost(turn)
                : new TurnTaken.NotSaved(Emergencies.In(edition, stepped), edition, language);
        }
    }

    /// <summary>What is shown for a turn whose conversation cannot be read: it is not saved, but its emergency is seen.</summary>
    public TurnTaken.NotSaved Lost(Turn turn)
    {
        var edition = shelf.Current;
        return new TurnTaken.NotSaved(Emergencies.InTurnAlone(edition, turn, Now()), edition, edition.DefaultLanguage);
    }

    /// <summary>The conversation as it stands; null if there is none.</summary>
    /// <exception cref="EditionGoneException">It is kept, but its edition is not.</exception>
    public async ValueTask<(ServedEdition Edition, ConversationState State)?> FindAsync(string conversation, CancellationToken cancellation)
    {
        var state = _states.Find(conversation);
        if (state is not null && !await store.IsLastAsync(conversation, state.Number, cancellation).ConfigureAwait(false))
        {
            _states.Forget(conversation);
            state = null;
        }

        state ??= await FoldAsync(conversation, cancellation).ConfigureAwait(false);
        return state is null ? null : (await EditionAsync(state.EditionId, cancellation).ConfigureAwait(false), state);
    }

    /// <summary>All turns with their replies, in order.</summary>
    public async ValueTask<ImmutableArray<TurnBody>> HistoryAsync(string conversation, CancellationToken cancellation)
    {
        var records = await store.LoadAsync(conversation, cancellation).ConfigureAwait(false);
        return [.. records.Select(r => TurnJson.Read(r.Body.Span))];
    }

    /// <summary>Decides every kept turn again under its own edition, and says whether the replies are the same.</summary>
    public async ValueTask<Replayed> ReplayAsync(string conversation, CancellationToken cancellation)
    {
        var records = await store.LoadAsync(conversation, cancellation).ConfigureAwait(false);
        ConversationState? state = null;
        var turns = ImmutableArray.CreateBuilder<ReplayedTurn>(records.Length);
        foreach (var record in records)
        {
            var body = TurnJson.Read(record.Body.Span);
            var edition = turns.Count > 0 && state is null ? null : await shelf.FindAsync(record.EditionId, cancellation).ConfigureAwait(false);
            if (edition is not null)
                state = await MovedAsync(state, edition, cancellation).ConfigureAwait(false);
            var again = edition is null ? null : Conversing.Step(edition, state, body.Turn, Instant.FromUnixTimeMilliseconds(record.AtUnixMilliseconds), body.Withdrawn);
            state = again is null ? null : again.State with { Hash = record.Hash };
            turns.Add(new ReplayedTurn(record.Number, body.Turn, body.Replies, again?.Replies));
        }

        return new Replayed(turns.ToImmutable());
    }

    /// <summary>To be called when a conversation was erased: nothing of it stays in memory.</summary>
    public void Forget(string conversation) => _states.Forget(conversation);

    /// <summary>To be called when conversations were swept away.</summary>
    public void ForgetAll() => _states.ForgetAll();

    /// <summary>To the millisecond, as it is kept: a replay decides at the same moment.</summary>
    Instant Now() => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    async ValueTask<ConversationState?> FoldAsync(string conversation, CancellationToken cancellation)
    {
        ConversationState? state = null;
        foreach (var record in await store.LoadAsync(conversation, cancellation).ConfigureAwait(false))
        {
            var edition = await EditionAsync(record.EditionId, cancellation).ConfigureAwait(false);
            var body = TurnJson.Read(record.Body.Span);
            state = await MovedAsync(state, edition, cancellation).ConfigureAwait(false);
            state = Conversing.Step(edition, state, body.Turn, Instant.FromUnixTimeMilliseconds(record.AtUnixMilliseconds), body.Withdrawn).State with { Hash = record.Hash };
        }

        if (state is not null)
            _states.Put(conversation, state);
        return state;
    }

    /// <summary>The state under the edition of the next turn, which is another one if the conversation went on with a corrected edition.</summary>
    async ValueTask<ConversationState?> MovedAsync(ConversationState? state, ServedEdition next, CancellationToken cancellation) =>
        state is null || state.EditionId == next.Edition.Id ? state : Moving.Into(next, await EditionAsync(state.EditionId, cancellation).ConfigureAwait(false), state);

    async ValueTask<ServedEdition> EditionAsync(string id, CancellationToken cancellation) =>
        await shelf.FindAsync(id, cancellation).ConfigureAwait(false) ?? throw new EditionGoneException(id);

    async ValueTask<TurnTaken> RepeatAsync(string conversation, TurnRecord earlier, ServedEdition edition, CancellationToken cancellation)
    {
        _states.Forget(conversation);
        return await FoldAsync(conversation, cancellation).ConfigureAwait(false) is { } state
            ? new TurnTaken.Kept(conversation, earlier.Number, TurnJson.Read(earlier.Body.Span).Replies, edition, state, true)
            : new TurnTaken.Unknown();
    }
}
