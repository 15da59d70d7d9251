using System.Collections.Immutable;
using EarHelp.Conversation.Signing;
using EarHelp.Proof;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;

namespace EarHelp.Web.Signing;

/// <summary>
/// What must hold before a signature is kept. The command line looks before it sends one, and the service before it keeps one, whoever
/// sent it.
/// </summary>
public static class SignatureCheck
{
    /// <param name="seen">The comparison as it comes out now.</param>
    /// <returns>Why this signature is not taken, or null.</returns>
    public static string? FaultOf(Deed deed, Ledger ledger, SignedComparison seen)
    {
        ArgumentNullException.ThrowIfNull(deed);
        ArgumentNullException.ThrowIfNull(ledger);
        ArgumentNullException.ThrowIfNull(seen);
        if (ledger.IsInvented)
            return "everything in this store is made up, so nothing is signed in it; sign in the store of the clinic.";
        if (seen.Bound is { } bound)
            return bound;
        if (deed.Seen is not { } signed || signed.Against != seen.Against || signed.Hash != seen.Hash)
            return "what was signed is not the comparison as it comes out now; look at it again.";
        if (deed.ExpiresUnixMilliseconds is not { } expires || expires <= deed.AtUnixMilliseconds)
            return "the day on which the signature ends is over already.";
        return FaultOfPerson(deed, ledger, seen) ?? seen.FaultOf(signed.Confirmed);
    }

    /// <summary>What the proof found, without what is only a notice; nothing: it is proven.</summary>
    public static ImmutableArray<Finding> UnprovenIn(Edition edition) => [.. EditionProof.Of(edition).Findings.Where(f => !f.IsNotice)];

    static string? FaultOfPerson(Deed deed, Ledger ledger, SignedComparison seen)
    {
        var author = ledger.SignatureUnder(deed.Edition, DeedKind.SignedAsAuthor);
        var isAuthor = deed.Kind == DeedKind.SignedAsAuthor;
        if (!isAuthor && author is null)
            return "an approver signs what an author has signed, and no author has signed this edition yet.";
        var other = isAuthor ? ledger.SignatureUnder(deed.Edition, DeedKind.SignedAsApprover) : author;
        if (other is not null && SamePerson.Is(other.Name, deed.Name))
            return $"author and approver are two people, and \"{other.Name}\" has signed this edition as the {(isAuthor ? "approver" : "author")}.";
        return isAuthor || (author?.Seen?.Hash == seen.Hash && author.Seen.Against == seen.Against)
            ? null
            : "the author signed another comparison than the one above; the author has to sign again first.";
    }
}
