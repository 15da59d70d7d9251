using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Messages;

/// <summary>Reads a phrase as its authors write it into the plain rows of words that it stands for.</summary>
/// <remarks>
/// <c>a/b</c> is one or the other, <c>(a)</c> may be left out, <c>..</c> is a gap of a few words, <c>itch-</c> any word that begins so,
/// <c>a &amp; b</c> both with a gap between them, in either order, <c>@name</c> any member of a class, <c>#</c> a figure, <c>#10</c> one such as 7/10, <c>#kg</c> one such as 48kg, <c>^</c> a place where a clause begins or ends.
/// </remarks>
static class Pattern
{
    public const string Gap = "..", Edge = "^", EitherOrder = " & ";

    /// <summary>A limit of the machine: so many rows at most of one phrase.</summary>
    const int MostRows = 512;

    public static List<List<string>> Rows(string written)
    {
        if (written.IndexOf(EitherOrder, StringComparison.Ordinal) is > 0 and var at)
        {
            var (one, other) = (written[..at], written[(at + EitherOrder.Length)..]);
            return [.. Rows($"{one} {Gap} {other}"), .. Rows($"{other} {Gap} {one}")];
        }

        List<List<string>> rows = [[]];
        foreach (var part in Parts(written))
        {
            var isOptional = part is ['(', .., ')'];
            var choices = (isOptional ? part[1..^1] : part).Split('/', StringSplitOptions.RemoveEmptyEntries);
            var longer = new List<List<string>>();
            foreach (var row in rows)
            {
                if (isOptional)
                    longer.Add(row);
                foreach (var choice in choices)
                    longer.Add([.. row, .. Folded(choice)]);
            }

            rows = longer.Count > MostRows ? longer[..MostRows] : longer;
        }

        rows.RemoveAll(r => r.TrueForAll(w => w is Gap or Edge));
        return rows;
    }

    /// <summary>Cut at blanks, but not inside brackets.</summary>
    static IEnumerable<string> Parts(string written)
    {
        var start = 0;
        var isInside = false;
        for (var i = 0; i <= written.Length; i++)
        {
            if (i < written.Length && written[i] is ('(' or ')'))
                isInside = written[i] == '(';
            if (i < written.Length && (isInside || written[i] != ' '))
                continue;
            if (i > start)
                yield return written[start..i];
            start = i + 1;
        }
    }

    static List<string> Folded(string choice)
    {
        if (choice is Gap or Edge or ['#', ..] or ['@', ..])
            return [choice];
        var isBeginning = choice.EndsWith('-');
        var words = WordList.Of(choice).Select(w => w.Text).ToList();
        if (isBeginning && words.Count > 0)
            words[^1] += "-";
        return words;
    }
}
