using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;

namespace EarHelp.Web.Pages;

/// <summary>The words of one edition in one language, for one person.</summary>
public sealed record Words(Edition Edition, LetterWriter Letter)
{
    /// <summary>The fact that chooses the grammar, and its value for who writes about themselves; the program knows them by name.</summary>
    const string AboutWhom = "about whom";
    const string Me = "me";

    public string Language => Letter.Language;

    /// <summary>A short text by its key.</summary>
    public string this[string key] => Letter.Text(key);

    /// <summary>For a person of whom nothing is known yet.</summary>
    public static Words First(ServedEdition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return new Words(edition.Edition, edition.WriterOf(edition.DefaultLanguage, isSelf: true));
    }

    public static Words Of(ServedEdition edition, ConversationState state)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(state);
        return new Words(edition.Edition, edition.WriterOf(edition.LanguageOr(state.Language), IsAboutSelf(edition.Dialog, state)));
    }

    /// <summary>A unit after a number, e.g. "years"; the unit itself if nobody worded it.</summary>
    public string Unit(string unit)
    {
        var key = unit + " many";
        var words = this[key];
        return string.Equals(words, key, StringComparison.Ordinal) ? unit : words;
    }

    static bool IsAboutSelf(Dialog dialog, ConversationState state)
    {
        if (dialog.FindFact(AboutWhom) is not { } fact)
            return true;
        foreach (var answer in state.Answers)
        {
            if (answer.Of.Fact == fact.Index)
                return answer.Said is not Said.Values said || said.Set.Only is not { } value || fact.Values.NameOf(value) == Me;
        }

        return true;
    }
}
