using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Withdrawing;
using EarHelp.Triage.Editions;
using EarHelp.Web.Signing;

namespace EarHelp.Web.Editions;

/// <summary>Takes what people do about editions. Whoever sends it, nothing is kept that does not hold here and now.</summary>
public sealed class EditionDeeds(ServedEditions editions, LedgerInForce ledger, IEditionArchive archive, TimeProvider clock)
{
    /// <summary>The edition that was proven last: author and approver sign the same one.</summary>
    volatile string? _proven;

    /// <param name="asked">When it was done is written here, whatever it says.</param>
    /// <param name="after">Hash of the last record that the sender knew; empty: none.</param>
    public async Task<AddedDeed> AddAsync(Deed asked, string after, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(asked);
        if (ledger.Damage is { } damage)
            return new AddedDeed.Refused(damage);
        var known = ledger.Ledger;
        if (known.LastHash != after)
            return new AddedDeed.Stale();
        if (string.IsNullOrWhiteSpace(asked.Name) || string.IsNullOrWhiteSpace(asked.Role) || string.IsNullOrWhiteSpace(asked.Reason))
            return new AddedDeed.Refused("a name, a role and a reason are kept of everything that is done.");
        var deed = asked with { AtUnixMilliseconds = clock.GetUtcNow().ToUnixTimeMilliseconds() };
        if (await FaultOfAsync(deed, known, cancellation) is { } fault)
            return new AddedDeed.Refused(fault);
        return await editions.CarryOutAsync(known, deed, cancellation);
    }

    async Task<string?> FaultOfAsync(Deed deed, Ledger known, CancellationToken cancellation) => deed.Kind switch
    {
        DeedKind.SignedAsAuthor or DeedKind.SignedAsApprover => await FaultOfSignatureAsync(deed, known, cancellation),
        DeedKind.Published => ledger.IsSigned(deed.Edition) ? null : "the service does not publish what is not signed by two people at this moment.",
        DeedKind.FilesFollowed => known.Published == deed.Edition ? null : "no edition is published, so the files are followed already.",
        DeedKind.Withdrawn or DeedKind.Lifted => WithdrawalCheck.FaultOf(deed, known, editions.Current?.Edition),
        _ => "this is nothing that can be done about an edition.",
    };

    async Task<string?> FaultOfSignatureAsync(Deed deed, Ledger known, CancellationToken cancellation)
    {
        if (await CompileAsync(deed.Edition, cancellation) is not { } edition)
            return "that edition is not in the archive of this service, or has faults.";
        var with = ComparedWith.For(edition.Id, editions.Current?.Edition.Id, known);
        Edition? other = null;
        if (with.Edition is { } id && (other = await CompileAsync(id, cancellation)) is null)
            return $"edition {id}, with which it is compared, is not in the archive of this service.";
        if (SignatureCheck.FaultOf(deed, known, SignedComparison.Of(with, other, edition)) is { } fault)
            return fault;
        if (_proven != edition.Id && SignatureCheck.UnprovenIn(edition) is { IsEmpty: false } findings)
            return $"the edition is not proven safe ({findings.Length} findings); \"earhelp check\" tells them.";
        _proven = edition.Id;
        return null;
    }

    async Task<Edition?> CompileAsync(string id, CancellationToken cancellation) =>
        await archive.FindAsync(id, cancellation) is { } pack
        && EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.InService) is { Edition: { } edition } && edition.Id == id
            ? edition
            : null;
}
