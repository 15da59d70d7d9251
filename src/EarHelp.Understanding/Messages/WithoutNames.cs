using System.Text;

namespace EarHelp.Understanding.Messages;

/// <summary>A message as clinicians may read it: what can be a name, a number of a person or an address is left out.</summary>
/// <remarks>
/// Left out are words that begin with a capital inside a sentence, those that begin one and are no words of the edition, what follows
/// words such as "my name is", figures of four digits or more, and addresses. A name in small letters that nothing announces stays.
/// </remarks>
public static class WithoutNames
{
    const char Gone = '…';

    /// <summary>Words that a name may take after "my name is".</summary>
    const int LongestName = 3;

    const int DigitsOfNumber = 4;

    public static string Of(PhraseBook book, string text)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(text);
        var words = new MessageWords(book, text);
        var isGone = new bool[words.Count];
        var isShouted = !text.Any(char.IsLower);
        for (var i = 0; i < words.Count; i++)
            isGone[i] = IsPersonal(book, words, i, text, isShouted);
        foreach (var trigger in Findings.In(book.Triggers, words).Where(t => t.Meaning.Kind == "a name follows"))
        {
            for (var i = trigger.Last + 1; i < words.Count && i <= trigger.Last + LongestName && !words.BeginsClause(i) && (i == trigger.Last + 1 || !book.Knows(words[i])); i++)
                isGone[i] = true;
        }

        return Written(words, isGone, text);
    }

    static bool IsPersonal(PhraseBook book, MessageWords words, int at, string text, bool isShouted)
    {
        var span = words.Own(at).Span;
        if (words.Own(at).Text.Count(char.IsAsciiDigit) >= DigitsOfNumber || IsInAddress(text, span.Start, span.End))
            return true;
        if (!char.IsUpper(text[span.Start]) || words[at] is "i" or "im" or "ive" or "id" or "ill")
            return false;
        return !book.Knows(words.Own(at).Text) || (!isShouted && !words.BeginsSentence(at));
    }

    /// <summary>Whether it stands between blanks with an "at" sign or a stroke pair, as an e-mail or web address does.</summary>
    static bool IsInAddress(string text, int start, int end)
    {
        while (start > 0 && !char.IsWhiteSpace(text[start - 1]))
            start--;
        while (end < text.Length && !char.IsWhiteSpace(text[end]))
            end++;
        return text.AsSpan(start, end - start).Contains('@') || text.AsSpan(start, end - start).Contains("//", StringComparison.Ordinal);
    }

    static string Written(MessageWords words, bool[] isGone, string text)
    {
        var written = new StringBuilder();
        var from = 0;
        for (var i = 0; i < words.Count; i++)
        {
            if (!isGone[i])
                continue;
            written.Append(text, from, words.Own(i).Span.Start - from).Append(Gone);
            from = words.Own(i).Span.End;
        }

        return written.Append(text, from, text.Length - from).ToString();
    }
}
