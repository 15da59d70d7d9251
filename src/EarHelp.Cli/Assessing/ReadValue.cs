using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>A value as read, or what is wrong with it.</summary>
/// <param name="Earliest">For a date: the earliest moment that it may stand for; else null.</param>
public readonly record struct ReadValue(ValueSet MayBe, Instant? Earliest, string? Fault)
{
    public static ReadValue Of(ValueSet mayBe, Instant? earliest = null) => new(mayBe, earliest, null);

    public static ReadValue Wrong(string fault) => new(ValueSet.Empty, null, fault);

    /// <summary>Either may be true. A fault of one is a fault of both.</summary>
    public ReadValue Or(ReadValue other)
    {
        if ((Fault ?? other.Fault) is { } fault)
            return Wrong(fault);
        return Of(MayBe.Union(other.MayBe), Earlier(Earliest, other.Earliest));
    }

    static Instant? Earlier(Instant? one, Instant? other) =>
        one is { } a && other is { } b ? Instant.Min(a, b) : one ?? other;
}
