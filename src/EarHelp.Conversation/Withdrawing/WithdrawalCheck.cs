using EarHelp.Conversation.Signing;
using EarHelp.Triage.Editions;

namespace EarHelp.Conversation.Withdrawing;

/// <summary>What must hold before something is withdrawn, or told again.</summary>
public static class WithdrawalCheck
{
    /// <param name="edition">The one that is served, or would be; null: none.</param>
    /// <returns>Why it is not done, in words for the person who asked, or null.</returns>
    public static string? FaultOf(Deed deed, Ledger ledger, Edition? edition)
    {
        ArgumentNullException.ThrowIfNull(deed);
        var now = Withdrawals.In(ledger);
        var named = deed.Outcome is null ? "all triage" : $"\"{deed.Outcome}\"";
        if (deed.Kind == DeedKind.Lifted)
            return now.Names(deed.Outcome) || (deed.Outcome is null && !now.IsNone) ? null : $"{named} is not withdrawn.";
        if (now.Names(deed.Outcome))
            return $"{named} is withdrawn already.";
        if (deed.Outcome is not { } outcome)
            return null;
        if (edition is null)
            return "no edition is served, so there is no outcome to name.";
        var levels = edition.Dialog.Levels.Select(l => l.Id).ToArray();
        if (outcome == levels[0])
            return $"{named} is the most urgent outcome: the emergency texts are always told.";
        return levels.Contains(outcome) ? null : $"there is no outcome {named}; there are {string.Join(", ", levels.Skip(1).Select(l => $"\"{l}\""))}.";
    }
}
