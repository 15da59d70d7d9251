using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Withdrawing;

namespace EarHelp.Web.Editions;

/// <summary>
/// What the ledger says at this moment. A damaged one says nothing: then nothing is signed, and all triage is withdrawn, because nobody
/// knows what was.
/// </summary>
public sealed class LedgerInForce(IEditionLedger kept, TimeProvider clock)
{
    readonly SignedEditions _signed = new(clock);
    volatile Ledger _ledger = Ledger.Empty;
    volatile Withdrawals _withdrawn = Withdrawals.None;
    volatile string? _damage;
    ImmutableArray<string> _corrected = [];

    public Ledger Ledger => _ledger;

    public Withdrawals Withdrawn => _withdrawn;

    /// <summary>What is wrong with the ledger and how to mend it, or null.</summary>
    public string? Damage => _damage;

    /// <summary>True if something was withdrawn, an edition was published after that, and this one was not.</summary>
    public bool IsSuperseded(string edition) => !_corrected.IsEmpty && !_corrected.Contains(edition);

    /// <summary>True if everything that is kept is made up.</summary>
    public bool IsInvented() => _ledger.IsInvented;

    public bool IsSigned(string edition) => _signed.IsSigned(edition);

    public async Task ReadAsync(CancellationToken cancellation)
    {
        try
        {
            _ledger = await Ledger.ReadAsync(kept, cancellation);
            _withdrawn = Withdrawals.In(_ledger);
        }
        catch (LedgerDamagedException damaged)
        {
            (_damage, _ledger, _withdrawn) = (damaged.Message, Ledger.Empty, Withdrawals.Everything);
        }

        _corrected = _ledger.Corrected;
        _signed.Read(_ledger);
    }

    /// <summary>Keeps a deed after the ones that are known, and has it in force; false: it is kept after others, or the ledger is damaged.</summary>
    public async Task<bool> AddAsync(Ledger known, Deed deed, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(known);
        if (_damage is not null || !await kept.AppendAsync(known.Next(deed), cancellation))
            return false;
        await ReadAsync(cancellation);
        return true;
    }
}
