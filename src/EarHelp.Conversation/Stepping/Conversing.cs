using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>The conversation as a pure function: an edition, a state, a turn and a moment give the next state and the replies.</summary>
public static class Conversing
{
    /// <param name="state">Null for a new conversation.</param>
    public static Stepped Step(ServedEdition edition, ConversationState? state, Turn turn, Instant now)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(turn);
        var language = turn.Content is TurnContent.Begin begin ? edition.LanguageOr(begin.Language) : edition.DefaultLanguage;
        state ??= ConversationState.Begin(edition.Edition.Id, language);
        return new OneTurn(edition, state with { Number = state.Number + 1, Hash = string.Empty }, turn, now).Take();
    }
}
