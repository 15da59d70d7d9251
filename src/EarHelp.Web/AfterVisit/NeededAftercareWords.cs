using System.Collections.Immutable;

namespace EarHelp.Web.AfterVisit;

/// <summary>What an edition must word so that the plan after a visit can be shown; one that lacks any is not served.</summary>
public static class NeededAftercareWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "aftercare heading", "aftercare hint", "aftercare open", "aftercare open hint", "aftercare found", "aftercare days", "aftercare until", "aftercare stretch", "aftercare in full",
        "aftercare left ear", "aftercare right ear", "aftercare calendar", "aftercare calendar title", "aftercare large", "aftercare small", "aftercare ask heading", "aftercare ask hint", "aftercare ask", "aftercare over", "aftercare corrected heading", "aftercare corrected",
    ];
}
