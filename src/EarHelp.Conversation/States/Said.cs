using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.States;

/// <summary>What a person said of one fact. Dates are kept as dates, never as ages: what is counted from them goes on counting.</summary>
public abstract record Said
{
    Said()
    {
    }

    /// <summary>Any of the fact's values may be true.</summary>
    public static Said Unsure { get; } = new NotSure();

    public sealed record NotSure : Said;

    /// <param name="Set">Not empty.</param>
    public sealed record Values(ValueSet Set) : Said;

    /// <summary>A day between two, both included, at the clinic.</summary>
    public sealed record Days(LocalDate From, LocalDate To) : Said;

    /// <summary>A moment between two, both included.</summary>
    public sealed record Moments(Instant From, Instant To) : Said;
}
