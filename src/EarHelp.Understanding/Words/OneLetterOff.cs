namespace EarHelp.Understanding.Words;

/// <summary>Whether two words differ by at most one letter added, left out, replaced, or by two neighbours swapped.</summary>
static class OneLetterOff
{
    /// <summary>True also for equal words. Takes time linear in the length.</summary>
    public static bool Holds(string one, string other)
    {
        if (one.Length > other.Length)
            (one, other) = (other, one);
        if (other.Length - one.Length > 1)
            return false;
        var i = 0;
        while (i < one.Length && one[i] == other[i])
            i++;
        var mine = one.AsSpan(i);
        var theirs = other.AsSpan(i);
        if (mine.Length < theirs.Length)
            return mine.SequenceEqual(theirs[1..]);
        if (mine.IsEmpty || mine[1..].SequenceEqual(theirs[1..]))
            return true;
        return mine.Length >= 2 && mine[0] == theirs[1] && mine[1] == theirs[0] && mine[2..].SequenceEqual(theirs[2..]);
    }
}
