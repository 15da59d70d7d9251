namespace EarHelp.Understanding.Messages;

/// <summary>A phrase found in a message.</summary>
/// <param name="Places">Its own words, in order; what stands in a gap is not among them.</param>
sealed record Finding<T>(T Meaning, int[] Places)
{
    public int First => Places[0];

    public int Last => Places[^1];

    public bool Holds(int at) => Array.IndexOf(Places, at) >= 0;

    /// <summary>Whether a marked word stands between its own.</summary>
    public bool HasInGap(bool[] marks)
    {
        for (var i = 1; i < Places.Length; i++)
        {
            if (Places[i] > Places[i - 1] + 1 && Array.IndexOf(marks, true, Places[i - 1] + 1, Places[i] - Places[i - 1] - 1) >= 0)
                return true;
        }

        return false;
    }

    public bool IsInside<TOther>(Finding<TOther> other) =>
        other.Places.Length > Places.Length && Array.TrueForAll(Places, other.Holds);
}

static class Findings
{
    public static List<Finding<T>> In<T>(PatternTree<T> tree, MessageWords words)
    {
        var found = new List<Finding<T>>();
        var seen = new HashSet<(T, int, int)>();
        for (var at = 0; at < words.Count; at++)
        {
            tree.Match(words, at, (path, meanings) =>
            {
                foreach (var meaning in meanings)
                {
                    if (seen.Add((meaning, path[0], path[^1])))
                        found.Add(new Finding<T>(meaning, path.ToArray()));
                }
            });
        }

        return found;
    }
}
