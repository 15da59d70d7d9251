using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Patients;

/// <summary>Which ears are spoken of: as it is said, and as it follows from the ears that are named.</summary>
/// <param name="Assessed">One ear, or both where both are affected or may be.</param>
/// <param name="TheOne">The ear that a value without an ear is about, or null where that is not clear.</param>
/// <param name="Affected">The answer to which ears are affected.</param>
public sealed record EarsSpokenOf(ImmutableArray<Ear> Assessed, Ear? TheOne, Answer Affected)
{
    const string Left = "left";
    const string Right = "right";

    /// <summary>Null if values are given for an ear that is not affected.</summary>
    public static EarsSpokenOf? Of(Dialog dialog, ImmutableArray<GivenValue> given)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        var named = given.Select(g => g.Ear).OfType<Ear>().Distinct().ToImmutableArray();
        if (dialog.FindFact(KnownFacts.EarsAffected) is not { Values: FactValues.Named names } fact)
            return new EarsSpokenOf(named.Length == 0 ? [Ear.Either] : named, named.Length == 1 ? named[0] : null, Answer.Unknown);
        var told = given.FirstOrDefault(g => g.Fact == fact)?.MayBe;
        var mayBe = told ?? names.All;
        if (named.Contains(Ear.Left))
            mayBe = Without(names, mayBe, Right);
        if (named.Contains(Ear.Right))
            mayBe = Without(names, mayBe, Left);
        if (mayBe.IsEmpty)
            return null;
        var affected = told is not null || mayBe.Only is not null ? new Answer.Asked(mayBe) : Answer.Unknown;
        return (mayBe.Only is { } only ? names.NameOf(only) : null) switch
        {
            Left => new EarsSpokenOf([Ear.Left], Ear.Left, affected),
            Right => new EarsSpokenOf([Ear.Right], Ear.Right, affected),
            not null => new EarsSpokenOf([Ear.Left, Ear.Right], null, affected),
            null when named.IsEmpty => new EarsSpokenOf([Ear.Either], Ear.Either, affected),
            null => new EarsSpokenOf([Ear.Left, Ear.Right], named.Length == 1 ? named[0] : null, affected),
        };
    }

    static ValueSet Without(FactValues.Named names, ValueSet mayBe, string ear) =>
        names.IndexOf(ear) is { } index ? mayBe.Intersect(ValueSet.Of(index).Complement(names.Count)) : mayBe;
}
