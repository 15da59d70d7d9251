using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Readings;

/// <summary>Reads a message that is nothing but a short answer. Takes time linear in its length; knows no word that is not in the edition.</summary>
public static class ShortAnswers
{
    /// <summary>Null unless the whole message is an answer to the question that is open.</summary>
    /// <param name="asked">The question that is open.</param>
    /// <param name="today">The date at the clinic.</param>
    public static PlainAnswer? Read(Lexicon lexicon, string text, AskedNow asked, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(lexicon);
        ArgumentNullException.ThrowIfNull(text);
        var words = WordList.Of(text);
        return words.IsEmpty ? null : new PlainReader(lexicon, asked, today).Read(words, [.. words.Select(w => lexicon.Spelling.Mend(w.Text))]);
    }

    /// <summary>Whether the whole message is a yes or a no; null: it is neither.</summary>
    public static bool? ReadYesNo(Lexicon lexicon, string text)
    {
        ArgumentNullException.ThrowIfNull(lexicon);
        var whole = Whole(lexicon, text);
        return whole.Any(m => m is Meaning.OfYes) ? true : whole.Any(m => m is Meaning.OfNo) ? false : null;
    }

    /// <summary>Key of the text that answers a message which is only a greeting or a thank-you; null: it is neither.</summary>
    public static string? ReadCourtesy(Lexicon lexicon, string text)
    {
        ArgumentNullException.ThrowIfNull(lexicon);
        return Whole(lexicon, text).OfType<Meaning.OfCourtesy>().FirstOrDefault()?.Key;
    }

    static IReadOnlyList<Meaning> Whole(Lexicon lexicon, string text) =>
        WordList.Of(text) is { IsEmpty: false } words ? lexicon.Phrases.Whole([.. words.Select(w => lexicon.Spelling.Mend(w.Text))]) : [];
}
