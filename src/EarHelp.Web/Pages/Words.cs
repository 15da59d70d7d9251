using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;

namespace EarHelp.Web.Pages;

/// <summary>The words of one edition in one language, for one person.</summary>
/// <param name="IsSigned">False: every page says that it is a demonstration.</param>
/// <param name="IsInvented">True: every page says that everything on it is made up.</param>
public sealed record Words(Edition Edition, LetterWriter Letter, bool IsSigned, bool IsInvented)
{
    public string Language => Letter.Language;

    /// <summary>A short text by its key.</summary>
    public string this[string key] => Letter.Text(key);

    /// <summary>For a person of whom nothing is known yet.</summary>
    public static Words First(ServedEdition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return new Words(edition.Edition, edition.WriterOf(edition.DefaultLanguage, isSelf: true), edition.IsSigned, edition.IsInvented);
    }

    public static Words Of(ServedEdition edition, ConversationState state)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(state);
        return new Words(edition.Edition, edition.WriterOf(state), edition.IsSigned, edition.IsInvented);
    }

    /// <summary>A unit after a number, e.g. "years"; the unit itself if nobody worded it.</summary>
    public string Unit(string unit)
    {
        var key = unit + " many";
        var words = this[key];
        return string.Equals(words, key, StringComparison.Ordinal) ? unit : words;
    }
}
