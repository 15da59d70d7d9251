using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;

namespace EarHelp.Web.Bot;

/// <summary>Chooses the words for a conversation: its language, and whether the person writes about themselves.</summary>
static class Grammar
{
    const string AboutWhom = "about whom";
    const string Me = "me";

    public static LetterWriter WordsOf(ServedEdition edition, ConversationState state) =>
        edition.WriterOf(state.Language, IsSelf(edition, state));

    static bool IsSelf(ServedEdition edition, ConversationState state)
    {
        if (edition.Dialog.FindFact(AboutWhom) is not { } fact)
            return true;
        foreach (var answer in state.Answers)
        {
            if (answer.Of.Fact == fact.Index && answer.Said is Said.Values { Set.Only: { } only })
                return string.Equals(fact.Values.NameOf(only), Me, StringComparison.Ordinal);
        }

        return true;
    }
}
