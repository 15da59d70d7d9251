using System.Collections.Immutable;

namespace EarHelp.Clinic.Figures;

/// <summary>Whether a hidden part of a total could be worked out of what is shown.</summary>
public static class HiddenParts
{
    /// <summary>
    /// True if some total that these parts may have would give a hidden one away. It rests on nothing but what is shown anyway, so that leaving the
    /// total out says nothing either.
    /// </summary>
    /// <param name="isWhole">As below.</param>
    public static bool MayBeGivenAway(ImmutableArray<ShownCount> parts, bool isWhole)
    {
        var from = parts.Sum(p => p.From);
        return Enumerable.Range(from, parts.Sum(p => p.To) - from + 1).Select(ShownCount.Of).Any(t => AreGivenAway(t.From, t.To, parts, isWhole));
    }

    /// <param name="from">The smallest number that the total may be.</param>
    /// <param name="to">The largest.</param>
    /// <param name="parts">As they are shown; none is withheld.</param>
    /// <param name="isWhole">False if there may be more parts that are shown nowhere: then the total only limits them from above.</param>
    /// <returns>True if only one number is left for a hidden part.</returns>
    public static bool AreGivenAway(int from, int to, ImmutableArray<ShownCount> parts, bool isWhole)
    {
        const int Most = ShownCount.Least - 1;
        var hidden = parts.Count(p => p.Rounded is null);
        if (hidden == 0)
            return false;
        var shown = parts.Where(p => p.Rounded is not null).ToList();
        var least = isWhole ? from - shown.Sum(p => p.To) : 0;
        var most = to - shown.Sum(p => p.From);
        return Math.Max(0, least - (Most * (hidden - 1))) >= Math.Min(Most, most);
    }
}
