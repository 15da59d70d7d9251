using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;

namespace EarHelp.Web.Bot;

/// <summary>Takes the turns of channels: a first message begins its conversation and is then taken like any other.</summary>
public sealed class ChannelTurns(TurnTaking turns, IEditionShelf shelf)
{
    /// <summary>The one beginning of a conversation has one name, however many messages come first at the same time.</summary>
    const string BeginId = "begin";

    /// <returns>What became of the beginning, if there was one, and of the turn.</returns>
    public async ValueTask<IReadOnlyList<TurnTaken>> TakeAsync(
        ChannelConversation conversation, Turn turn, string? locale, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        ArgumentNullException.ThrowIfNull(turn);
        if (turn.Content is TurnContent.Begin begin)
            return [await BeginAsync(conversation, begin.Language, cancellation).ConfigureAwait(false)];
        var taken = await turns.TakeAsync(conversation.Id, turn, [], cancellation).ConfigureAwait(false);
        if (taken is not TurnTaken.Unknown)
            return [taken];
        var begun = await BeginAsync(conversation, locale ?? string.Empty, cancellation).ConfigureAwait(false);
        return begun is TurnTaken.Kept
            ? [begun, await turns.TakeAsync(conversation.Id, turn, [], cancellation).ConfigureAwait(false)]
            : [begun];
    }

    ValueTask<TurnTaken> BeginAsync(ChannelConversation conversation, string language, CancellationToken cancellation) =>
        turns.TakeAsync(conversation.Id, new Turn(BeginId, null, new TurnContent.Begin(Known(language))), [conversation.Key], cancellation);

    /// <summary>A language of the edition; <c>en-GB</c> is <c>en</c> where the edition does not tell them apart.</summary>
    string Known(string language) =>
        shelf.Current.Edition.Wordings.ContainsKey(language) ? language : shelf.Current.LanguageOr(language.Split('-')[0]);
}
