using System.Collections.Immutable;

namespace EarHelp.Proof.Findings;

/// <summary>The properties of an edition.</summary>
public static class PropertyNames
{
    public const string Total = "total", Monotone = "monotone", NoHarm = "no harm", Defer = "defer", Reach = "reach", Length = "length", Agree = "agree";

    public static ImmutableArray<string> All { get; } = [Total, Monotone, NoHarm, Defer, Reach, Length, Agree];
}
