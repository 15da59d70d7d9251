using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Bot;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Web.Turns;

/// <summary>What the pages need of the conversation, which they reach through the one bot: found by a person's secret, begun, gone on with, left and come back to.</summary>
public sealed class Talk(
    TurnTaking taking, PageChannel channel, ITurnStore store, ServedEditions editions, BeginGate beginnings, ServiceSettings settings, TimeProvider clock)
{
    /// <summary>The first turn of every conversation: its second sending is the same turn.</summary>
    const string FirstTurn = "begin";

    /// <summary>Set before a link's secret when it is hashed, so that a link can never be used as a cookie.</summary>
    const string LinkMark = "link:";

    /// <summary>The same for the code of a receipt, which opens its conversation as often as it is used.</summary>
    const string ReceiptMark = "receipt:";

    /// <summary>The same for the link in a message, which opens its conversation as long as its question is asked.</summary>
    const string CheckInMark = "check-in:";

    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    /// <summary>What a new conversation begins with, before anything is kept of it.</summary>
    public ImmutableArray<Reply> Opening(ServedEdition edition) => Conversing.Step(edition, null, Begin(edition), Now).Replies;

    public async ValueTask<OpenConversation?> FindAsync(string secret, CancellationToken cancellation) =>
        await FindByKeyAsync(Secret.HashOf(secret), cancellation) is { } id ? await OpenAsync(id, cancellation) : null;

    public async Task<ImmutableArray<TurnTold>> HistoryAsync(OpenConversation conversation, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        var turns = await taking.HistoryAsync(conversation.Id, cancellation);
        return WithoutCorrected([.. turns.Select(t => new TurnTold(t.Turn, t.Replies))]);
    }

    /// <summary>Begins the conversation that the secret opens from now on, and takes its first turns; the same form sent twice begins one.</summary>
    public async Task<TakenTurns> BeginAsync(string secret, ImmutableArray<Turn> turns, CancellationToken cancellation)
    {
        var key = Secret.HashOf(secret);
        using (await beginnings.EnterAsync(key, cancellation))
        {
            var id = await FindByKeyAsync(key, cancellation);
            if (id is null)
            {
                id = Secret.NewConversation(clock.GetUtcNow());
                var begun = await channel.TakeAsync(
                    id, Begin(editions.Current!), [new ConversationKey(key, OneTime: false, ExpiresUnixMilliseconds: null)], cancellation);
                if (begun is TurnTaken.NotSaved lost)
                    return NotSaved(lost, turns);
                id = await TheOneBegunAsync(key, id, cancellation);
            }

            return await TakeAsync(id, turns, [], cancellation);
        }
    }

    public Task<TakenTurns> TakeAsync(OpenConversation conversation, ImmutableArray<Turn> turns, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        return TakeAsync(conversation.Id, turns, [], cancellation);
    }

    /// <summary>Makes a private link; it opens the conversation once, for as long as an unfinished one is kept.</summary>
    public Task<TakenTurns> MakeLinkAsync(OpenConversation conversation, string turn, string link, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        var key = new ConversationKey(HashOfLink(link), OneTime: true, (clock.GetUtcNow() + settings.UnfinishedFor).ToUnixTimeMilliseconds());
        return TakeAsync(conversation.Id, [new Turn(turn, null, new TurnContent.AskForLink())], [key], cancellation);
    }

    /// <summary>What a link that was made opens: a conversation, once, for as long as that is kept.</summary>
    public static ConversationKey KeyOfLink(string link) => new(HashOfLink(link), OneTime: true, ExpiresUnixMilliseconds: null);

    /// <summary>What the link in a message opens: a conversation, as often as it is used before the end.</summary>
    internal static ConversationKey KeyOfCheckIn(string link, Instant until) => new(Secret.HashOf(CheckInMark + link), OneTime: false, until.ToUnixTimeMilliseconds());

    /// <summary>From now on the new secret opens the conversation of a message's link.</summary>
    /// <returns>Null if the link opens nothing, any more or at all.</returns>
    public async Task<TakenTurns?> OpenCheckInAsync(string link, string secret, string turn, CancellationToken cancellation) =>
        await FindByKeyAsync(Secret.HashOf(CheckInMark + link), cancellation) is { } id ? await ComeBackAsync(id, secret, turn, cancellation) : null;

    /// <summary>Uses a link up: from now on the new secret opens the conversation.</summary>
    /// <returns>Null if the link opens nothing, any more or at all.</returns>
    public async Task<TakenTurns?> OpenLinkAsync(string link, string secret, string turn, CancellationToken cancellation)
    {
        var hash = HashOfLink(link);
        if (await FindByKeyAsync(hash, cancellation) is not { } id || !await store.SpendKeyAsync(hash, cancellation))
            return null;
        return await ComeBackAsync(id, secret, turn, cancellation);
    }

    /// <summary>From now on the code opens the conversation, for as long as there is a request.</summary>
    public Task<TakenTurns> MakeReceiptAsync(OpenConversation conversation, string turn, string code, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        var key = new ConversationKey(Secret.HashOf(ReceiptMark + code), OneTime: false, ExpiresUnixMilliseconds: null);
        return TakeAsync(conversation.Id, [new Turn(turn, null, new TurnContent.AskForLink())], [key], cancellation);
    }

    /// <summary>True if the code opens this conversation.</summary>
    public async ValueTask<bool> IsReceiptAsync(string code, string conversation, CancellationToken cancellation) =>
        await FindByKeyAsync(Secret.HashOf(ReceiptMark + code), cancellation) == conversation;

    /// <summary>From now on the new secret opens the conversation of a receipt's code.</summary>
    /// <param name="hasRequest">Whether a conversation's request is still kept; without it the code opens nothing.</param>
    /// <returns>Null if the code opens nothing, any more or at all.</returns>
    public async Task<TakenTurns?> OpenReceiptAsync(
        string code, string secret, string turn, Func<string, CancellationToken, ValueTask<bool>> hasRequest, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(hasRequest);
        if (await FindByKeyAsync(Secret.HashOf(ReceiptMark + code), cancellation) is not { } id || !await hasRequest(id, cancellation))
            return null;
        return await ComeBackAsync(id, secret, turn, cancellation);
    }

    /// <summary>For a form whose conversation cannot be read: nothing is saved, but the emergency texts to which it leads are there.</summary>
    public TakenTurns.NotSaved Lost(ImmutableArray<Turn> turns) =>
        new([.. turns.SelectMany(t => Alarms(taking.Lost(t))).Distinct()]);

    /// <summary>What was told as an answer before the edition was corrected is not shown any more.</summary>
    static ImmutableArray<TurnTold> WithoutCorrected(ImmutableArray<TurnTold> history)
    {
        var from = history.Length - 1;
        while (from >= 0 && !history[from].Replies.Any(r => r is Reply.Say { Text: Withholding.CorrectedKey }))
            from--;
        return from < 0
            ? history
            : [.. history.Select((t, i) => i < from ? t with { Replies = t.Replies.RemoveAll(r => r is Reply.Answered) } : t)];
    }

    async Task<TakenTurns> TakeAsync(string id, ImmutableArray<Turn> turns, ImmutableArray<ConversationKey> keys, CancellationToken cancellation)
    {
        var told = ImmutableArray.CreateBuilder<TurnTold>(turns.Length);
        OpenConversation? conversation = null;
        foreach (var turn in turns)
        {
            switch (await channel.TakeAsync(id, turn, keys, cancellation))
            {
                case TurnTaken.Kept kept:
                    told.Add(new TurnTold(turn, kept.Replies));
                    conversation = new OpenConversation(id, kept.Edition, kept.State);
                    break;
                case TurnTaken.NotSaved lost:
                    return NotSaved(lost, turns);
                default:
                    return new TakenTurns.Gone();
            }
        }

        conversation ??= await OpenAsync(id, cancellation);
        return conversation is null ? new TakenTurns.Gone() : new TakenTurns.Kept(conversation, told.ToImmutable());
    }

    /// <summary>The same form may have come to another node at the same moment: the conversation that has the key is the one, and nothing stays of the other.</summary>
    async Task<string> TheOneBegunAsync(string key, string begun, CancellationToken cancellation)
    {
        if (await FindByKeyAsync(key, cancellation) is not { } first || first == begun)
            return begun;
        await store.EraseAsync(begun, cancellation);
        taking.Forget(begun);
        return first;
    }

    /// <summary>From now on the secret opens the conversation.</summary>
    Task<TakenTurns> ComeBackAsync(string id, string secret, string turn, CancellationToken cancellation) => TakeAsync(
        id, [new Turn(turn, null, new TurnContent.CameBack())], [new ConversationKey(Secret.HashOf(secret), OneTime: false, ExpiresUnixMilliseconds: null)], cancellation);

    async ValueTask<OpenConversation?> OpenAsync(string id, CancellationToken cancellation) =>
        await taking.FindAsync(id, cancellation) is var (edition, state) ? new OpenConversation(id, edition, state) : null;

    ValueTask<string?> FindByKeyAsync(string hash, CancellationToken cancellation) =>
        store.FindByKeyAsync(hash, clock.GetUtcNow().ToUnixTimeMilliseconds(), cancellation);

    /// <summary>What one turn led to, and what each turn of the same form says by itself: none of them was read by anyone.</summary>
    TakenTurns.NotSaved NotSaved(TurnTaken.NotSaved lost, ImmutableArray<Turn> turns) => new([.. Alarms(lost).Concat(Lost(turns).Alarms).Distinct()]);

    ImmutableArray<Prose> Alarms(TurnTaken.NotSaved lost)
    {
        if (lost.Edition is not { } edition)
            return [];
        var letter = edition.WriterOf(edition.LanguageOr(lost.Language), isSelf: true);
        return [.. lost.Emergencies.SelectMany(e => letter.Write(e, Now)).OfType<Conversation.Telling.LetterPart.Emergency>().Select(e => e.Text)];
    }

    static Turn Begin(ServedEdition edition) => new(FirstTurn, null, new TurnContent.Begin(edition.DefaultLanguage));

    static string HashOfLink(string link) => Secret.HashOf(LinkMark + link);
}
