using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using NodaTime;

namespace EarHelp.Content;

/// <summary>What a compilation is held against besides the sources.</summary>
/// <param name="Today">The day at the clinic; past the last year of the holidays is a fault. Null: not looked at.</param>
/// <param name="NeededTexts">Keys of the short texts that the program shows.</param>
/// <param name="NeededPages">Names of the pages that the program shows.</param>
public sealed record CompileOptions(LocalDate? Today, ImmutableArray<string> NeededTexts, ImmutableArray<string> NeededPages)
{
    public static CompileOptions Plain { get; } = new(null, [], []);

    /// <summary>For an edition that was taken into service once: a later version asks nothing more of its authors, so that conversations go on under it.</summary>
    public static CompileOptions InService { get; } = Plain with { PassesOver = Codes.OfAuthorsOnly };

    /// <summary>Codes of faults that do not count.</summary>
    public FrozenSet<string> PassesOver { get; init; } = [];
}
