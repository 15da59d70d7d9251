using System.Collections.Immutable;

namespace EarHelp.Web.CheckIns;

/// <summary>What an edition must word so that patients can be asked after a visit; one that lacks any is not served.</summary>
public static class NeededCheckInWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "check-in mail subject", "check-in mail hello", "check-in mail open", "check-in mail stop", "check-in mail news subject", "check-in mail news hello",
        "check-in before heading", "check-in before hint", "check-in before same", "check-in before change",
        "check-in link heading", "check-in link hint", "check-in link open",
        "check-in heading", "check-in hint", "check-in unsure", "check-in well", "check-in not well", "check-in answer", "check-in answered",
        "check-in plan heading", "check-in plan", "check-in plan button",
        "check-in thanks heading", "check-in thanks hint", "check-in next", "check-in last",
        "check-in stop heading", "check-in stop hint", "check-in stop", "check-in stopped heading", "check-in stopped",
        "check-in staff none", "check-in staff waits", "check-in staff asked", "check-in staff stopped",
        "check-in staff well", "check-in staff not well", "check-in staff left", "check-in staff silent", "check-in staff open", "check-in staff refused", "check-in staff left count", "check-in staff repeated",
    ];
}
