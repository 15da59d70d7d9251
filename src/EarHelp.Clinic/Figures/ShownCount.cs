using System.Globalization;

namespace EarHelp.Clinic.Figures;

/// <summary>How many, as it may be shown: never so that one person could be found in it.</summary>
/// <param name="Rounded">To the nearest 5; null: under 5, nobody among them, or withheld.</param>
/// <param name="IsWithheld">True for a total that is not shown because something that is hidden could be worked out of it.</param>
/// <remarks>
/// Counts under 5 are hidden, and all others rounded by themselves, so that two readings a day apart do not differ by one person. Source: NHS
/// England, "HES Analysis Guide", disclosure control (small counts hidden, the others rounded to the nearest 5; from memory).
/// </remarks>
public readonly record struct ShownCount(int? Rounded, bool IsWithheld = false)
{
    /// <summary>The smallest count that is shown.</summary>
    public const int Least = 5;

    const int Slack = Least / 2;

    public static ShownCount Withheld { get; } = new(null, IsWithheld: true);

    /// <summary>The smallest number that it may stand for.</summary>
    public int From => Rounded is { } shown ? Math.Max(Least, shown - Slack) : 0;

    /// <summary>The largest number that it may stand for; of what is withheld nothing is known.</summary>
    public int To => Rounded is { } shown ? shown + Slack : IsWithheld ? int.MaxValue : Least - 1;

    public static ShownCount Of(int count)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        return new ShownCount(count < Least ? null : (count + Slack) / Least * Least);
    }

    /// <summary>For programs: the number, "under 5", or "withheld".</summary>
    public override string ToString() => IsWithheld ? "withheld" : Rounded?.ToString(CultureInfo.InvariantCulture) ?? $"under {Least}";
}
