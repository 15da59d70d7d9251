using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Content;

/// <param name="Today">The day on which the edition is to serve; null: dates are not checked.</param>
/// <param name="NeededTexts">Keys of the interface texts that the program uses.</param>
/// <param name="NeededPages">Names of the pages that the program shows.</param>
public sealed record CompileOptions(LocalDate? Today, ImmutableArray<string> NeededTexts, ImmutableArray<string> NeededPages)
{
    public static CompileOptions Plain { get; } = new(null, [], []);
}
