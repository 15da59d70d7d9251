namespace EarHelp.Triage.Cells;

/// <summary>Finds what an author may have meant.</summary>
public static class NearestName
{
    /// <summary>The candidate that differs by the fewest typing slips, or null if none is close.</summary>
    /// <remarks>Close: at most one slip for each three letters, and at least one.</remarks>
    public static string? To(string written, IEnumerable<string> candidates)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(candidates);
        string? nearest = null;
        var fewest = Math.Max(1, written.Length / 3) + 1;
        foreach (var candidate in candidates)
        {
            if (Math.Abs(candidate.Length - written.Length) >= fewest)
                continue;
            var slips = string.Equals(written, candidate, StringComparison.OrdinalIgnoreCase) ? 0 : Slips(written, candidate, fewest);
            if (slips >= fewest)
                continue;
            fewest = slips;
            nearest = candidate;
        }

        return nearest;
    }

    /// <summary>Letters to add, drop, change or swap with their neighbour to make one from the other, small and capital letters alike.</summary>
    public static int Slips(string one, string other, int giveUpAt = int.MaxValue)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        var before = new int[other.Length + 1];
        var last = new int[other.Length + 1];
        var now = new int[other.Length + 1];
        for (var j = 0; j <= other.Length; j++)
            last[j] = j;
        for (var i = 1; i <= one.Length; i++)
        {
            now[0] = i;
            var least = i;
            for (var j = 1; j <= other.Length; j++)
            {
                var isSame = Small(one[i - 1]) == Small(other[j - 1]);
                now[j] = Math.Min(Math.Min(last[j] + 1, now[j - 1] + 1), last[j - 1] + (isSame ? 0 : 1));
                if (i > 1 && j > 1 && Small(one[i - 1]) == Small(other[j - 2]) && Small(one[i - 2]) == Small(other[j - 1]))
                    now[j] = Math.Min(now[j], before[j - 2] + 1);
                least = Math.Min(least, now[j]);
            }

            if (least >= giveUpAt)
                return least;
            (before, last, now) = (last, now, before);
        }

        return last[other.Length];
    }

    static char Small(char letter) => char.ToLowerInvariant(letter);
}
