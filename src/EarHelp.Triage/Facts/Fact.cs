using System.Collections.Immutable;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Facts;

/// <summary>One thing that can be known about the person or about one ear.</summary>
/// <param name="Index">Place in the asking order, from 0; also the fact's variable in the diagrams.</param>
/// <param name="Id">The name its author gave it.</param>
/// <param name="Values">For a date: the number counted from it.</param>
/// <param name="Counted">Set if the fact is a date, of which only the number counted from it decides.</param>
/// <param name="Worse">Which direction is worse.</param>
/// <param name="Clear">Index of the value that means nothing is wrong, or null.</param>
/// <param name="AppliesWhen">All must hold; empty: always. They speak of earlier facts only.</param>
public sealed record Fact(
    int Index,
    string Id,
    About About,
    FactValues Values,
    CountedFromDate? Counted,
    AskIn AskIn,
    Worse Worse,
    int? Clear,
    RedFlag RedFlag,
    ImmutableArray<Condition> AppliesWhen,
    SourceSpot Spot)
{
    /// <summary>The name that conditions use: the number's for a date, else the fact's own.</summary>
    public string DecidingId => Counted?.NumberId ?? Id;

    public bool IsYesNo => Values is FactValues.Named { IsYesNo: true };
}

public enum About
{
    Person,
    Ear,
}

/// <summary>When a fact is asked, in this order.</summary>
public enum AskIn
{
    Form,
    Safety,
    Story,
    BeforeAdvice,
}

/// <summary>A fact that is a date, of which a number is counted up to the moment of assessing.</summary>
/// <param name="NumberId">The number's name in conditions.</param>
public sealed record CountedFromDate(string NumberId, CountUnit Unit);

public enum CountUnit
{
    /// <summary>Calendar days in the clinic's time zone.</summary>
    Days,

    /// <summary>Elapsed hours.</summary>
    Hours,
}

/// <summary>The direction in which a fact gets worse.</summary>
public abstract record Worse
{
    Worse()
    {
    }

    /// <summary>Towards higher indexes, or towards lower ones.</summary>
    public sealed record Towards(bool Higher) : Worse;

    public sealed record NoDirection(string Because) : Worse;
}

/// <summary>Whether a fact is a danger sign: a first "not sure" to one brings a second wording.</summary>
public abstract record RedFlag
{
    RedFlag()
    {
    }

    public sealed record Marked : RedFlag;

    public sealed record Unmarked : RedFlag;

    /// <summary>In an urgent row but not a sign: an age, a time, a medicine.</summary>
    public sealed record Exempt(string Because) : RedFlag;
}
