using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Rules;

/// <summary>How the drops of an advice item are used, day by day. Shown only where the item itself is given.</summary>
/// <param name="Advice">Index of the advice item.</param>
/// <param name="EachTime">Drops in one ear at one time.</param>
/// <param name="Days">Days for one ear: the first figure is what everyone does, the second where it ends in any case.</param>
/// <param name="InMillilitre">Drops in a millilitre: a dropper's, and a real bottle's.</param>
/// <param name="BottleMillilitres">What the bottle holds when it is new.</param>
public sealed record DropsPlan(
    int Advice,
    Figures EachTime,
    Figures TimesADay,
    Figures Days,
    Figures InMillilitre,
    int BottleMillilitres,
    ImmutableArray<string> Sources,
    SourceSpot Spot)
{
    /// <summary>What the whole plan takes.</summary>
    /// <param name="ears">One after the other, so each takes its own days.</param>
    public DropsAmount AmountFor(int ears)
    {
        var drops = new Figures(EachTime.From * TimesADay.From * Days.From * ears, EachTime.To * TimesADay.To * Days.To * ears);
        return new DropsAmount(drops, (decimal)drops.From / InMillilitre.To, (decimal)drops.To / InMillilitre.From);
    }

    /// <summary>True if one new bottle is enough, even with the most and largest drops.</summary>
    public bool BottleLasts(int ears) => AmountFor(ears).MostMillilitres <= BottleMillilitres;
}

/// <summary>A figure, or a range of whole figures; both ends belong to it.</summary>
public readonly record struct Figures(int From, int To);

/// <param name="LeastMillilitres">The fewest drops, of the smallest size.</param>
/// <param name="MostMillilitres">The most drops, of the largest size.</param>
public sealed record DropsAmount(Figures Drops, decimal LeastMillilitres, decimal MostMillilitres);
