using System.Collections.Immutable;
using System.Text;

namespace EarHelp.Understanding.Words;

/// <summary>Cuts a text into words, in one pass.</summary>
public static class WordList
{
    /// <summary>The words in order; a picture is a word of its own, and what stands behind it begins a clause. A figure keeps the point, slash, hyphen or colon between its digits: <c>38.5</c>, <c>12/8</c>.</summary>
    public static ImmutableArray<Word> Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var words = ImmutableArray.CreateBuilder<Word>();
        var word = new StringBuilder();
        var start = 0;
        var end = 0;
        var beginsClause = true;
        for (var i = 0; i < text.Length; i++)
        {
            if (Folding.Fold(text[i]) is not { } c)
                continue;
            if (char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]))
            {
                Close();
                if (!IsSkinTone(c, text[i + 1]))
                    words.Add(new Word(text.Substring(i, 2), new TextSpan(i, 2), beginsClause));
                beginsClause = true;
                i++;
            }
            else if (char.IsLetterOrDigit(c))
            {
                if (word.Length == 0)
                    start = i;
                word.Append(c);
                end = i + 1;
            }
            else if (word.Length > 0 && c == '\'')
            {
                continue;
            }
            else if (IsInsideFigure(c, word, text, i))
            {
                word.Append(c);
            }
            else
            {
                Close();
                beginsClause |= IsClauseEnd(c);
            }
        }

        Close();
        return words.ToImmutable();

        void Close()
        {
            if (word.Length == 0)
                return;
            words.Add(new Word(word.ToString(), new TextSpan(start, end - start), beginsClause));
            word.Clear();
            beginsClause = false;
        }
    }

    static bool IsSkinTone(char high, char low) => high == '\ud83c' && low is >= '\udffb' and <= '\udfff';

    static bool IsInsideFigure(char c, StringBuilder word, string text, int at) =>
        c is '.' or '/' or '-' or ':'
        && word.Length > 0 && char.IsAsciiDigit(word[^1])
        && at + 1 < text.Length && Folding.Fold(text[at + 1]) is >= '0' and <= '9';

    static bool IsClauseEnd(char c) => c is '.' or ',' or ';' or '!' or '?' or '\n' or '\r' or '(' or ')' or ':';
}
