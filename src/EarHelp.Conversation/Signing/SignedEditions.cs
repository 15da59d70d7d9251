using System.Collections.Frozen;

namespace EarHelp.Conversation.Signing;

/// <summary>Which editions are signed at this moment, as far as the ledger was read. Safe to share.</summary>
public sealed class SignedEditions(TimeProvider clock)
{
    volatile FrozenDictionary<string, long> _until = FrozenDictionary<string, long>.Empty;

    /// <summary>To be called whenever the ledger has grown.</summary>
    public void Read(Ledger ledger)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        _until = ledger.Deeds.Select(d => d.Edition).Distinct(StringComparer.Ordinal)
            .Where(e => ledger.SignedUntil(e) is not null)
            .ToFrozenDictionary(e => e, e => ledger.SignedUntil(e)!.Value, StringComparer.Ordinal);
    }

    /// <summary>The end itself is outside.</summary>
    public bool IsSigned(string edition) =>
        _until.TryGetValue(edition, out var until) && clock.GetUtcNow().ToUnixTimeMilliseconds() < until;
}
