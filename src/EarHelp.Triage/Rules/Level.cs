using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Triage.Rules;

/// <summary>How urgent.</summary>
/// <param name="Rank">0 is the most urgent.</param>
/// <param name="Within">Within which the person should be seen; null: no limit.</param>
/// <param name="Iso">The limit as its author wrote it (ISO 8601), or null.</param>
public sealed record Level(int Rank, string Id, Period? Within, string? Iso, SourceSpot Spot)
{
    /// <summary>The code of HL7's request priority that a record system gets for it (<c>stat</c>, <c>asap</c>, <c>urgent</c>, <c>routine</c>), or null.</summary>
    public string? Priority { get; init; }
}

/// <summary>Where a person is sent.</summary>
/// <param name="ReachedWhen">A destination that the person cannot reach is never shown; null: always reached.</param>
public sealed record Destination(int Index, string Id, DestinationHours Hours, Condition? ReachedWhen, SourceSpot Spot);

public enum DestinationHours
{
    Always,
    Clinic,
    Unknown,
}

/// <summary>A piece of evidence.</summary>
/// <param name="HowSure">read, read second hand, from memory.</param>
public sealed record Source(string Id, string Organisation, string Title, string Year, string Part, string HowSure, SourceSpot Spot);
