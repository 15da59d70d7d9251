using System.Collections.Immutable;

namespace EarHelp.Web.Systems;

/// <summary>Words that the pages of accounts need to speak of systems.</summary>
static class NeededSystemWords
{
    internal static ImmutableArray<string> Texts { get; } =
    [
        "system heading", "system hint", "system name", "system no name", "system button", "system key shown", "system end", "system end button", "staff role system",
        "audit let system read",
    ];
}
