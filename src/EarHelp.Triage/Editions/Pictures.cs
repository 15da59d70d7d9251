using System.Collections.Immutable;

namespace EarHelp.Triage.Editions;

/// <summary>The drawings that a text may show. A face that cannot draw says the words that stand for the picture.</summary>
public static class Pictures
{
    public static ImmutableArray<string> All { get; } = ["ear", "plug in water", "bud in the ear", "cooling", "days after"];
}
