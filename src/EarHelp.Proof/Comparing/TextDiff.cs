using System.Collections.Immutable;

namespace EarHelp.Proof.Comparing;

/// <summary>Compares two texts word by word, by their longest common run of words.</summary>
static class TextDiff
{
    /// <summary>Longer texts are told as gone and come as a whole: the table of common runs would be too large.</summary>
    const int MostWords = 2000;

    public static ImmutableArray<TextPiece> Of(string before, string after)
    {
        var (old, now) = (Words(before), Words(after));
        if (old.Length > MostWords || now.Length > MostWords)
            return Joined([.. old.Select(w => (TextFate.Went, w)), .. now.Select(w => (TextFate.Came, w))]);
        var common = new int[old.Length + 1, now.Length + 1];
        for (var i = old.Length - 1; i >= 0; i--)
        {
            for (var j = now.Length - 1; j >= 0; j--)
                common[i, j] = old[i] == now[j] ? common[i + 1, j + 1] + 1 : Math.Max(common[i + 1, j], common[i, j + 1]);
        }

        var pieces = new List<(TextFate, string)>();
        for (int i = 0, j = 0; i < old.Length || j < now.Length;)
        {
            if (i < old.Length && j < now.Length && old[i] == now[j])
            {
                pieces.Add((TextFate.Stayed, old[i++]));
                j++;
            }
            else if (j == now.Length || (i < old.Length && common[i + 1, j] >= common[i, j + 1]))
            {
                pieces.Add((TextFate.Went, old[i++]));
            }
            else
            {
                pieces.Add((TextFate.Came, now[j++]));
            }
        }

        return Joined(pieces);
    }

    static string[] Words(string text) => text.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    static ImmutableArray<TextPiece> Joined(List<(TextFate Fate, string Word)> words)
    {
        var pieces = ImmutableArray.CreateBuilder<TextPiece>();
        foreach (var (fate, word) in words)
        {
            if (pieces.Count > 0 && pieces[^1].Fate == fate)
                pieces[^1] = new TextPiece(fate, $"{pieces[^1].Words} {word}");
            else
                pieces.Add(new TextPiece(fate, word));
        }

        return pieces.ToImmutable();
    }
}
