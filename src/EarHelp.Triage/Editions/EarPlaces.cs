using System.Collections.Immutable;

namespace EarHelp.Triage.Editions;

/// <summary>The places of the ear's drawing, from the outside in. Their names are keys of interface texts too.</summary>
public static class EarPlaces
{
    public static ImmutableArray<string> All { get; } = ["outer ear", "ear tube", "eardrum", "behind the drum", "inner ear"];
}
