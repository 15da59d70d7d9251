using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Content;

/// <summary>What a compilation is held against besides the sources.</summary>
/// <param name="Today">The day at the clinic; past the last year of the holidays is a fault. Null: not looked at.</param>
/// <param name="RequiredInterfaceKeys">Short texts that the program shows.</param>
/// <param name="RequiredPages">Pages that the program shows.</param>
public sealed record CompileOptions(LocalDate? Today, ImmutableArray<string> RequiredInterfaceKeys, ImmutableArray<string> RequiredPages)
{
    public static CompileOptions None { get; } = new(null, [], []);
}
