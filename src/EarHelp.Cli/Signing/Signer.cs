using EarHelp.Conversation.Signing;

namespace EarHelp.Cli.Signing;

/// <summary>A person who signs, as they gave themselves.</summary>
sealed record Signer(DeedKind Kind, string Name, string Role, string Reason)
{
    /// <summary>Why this person may not sign this edition now; null if they may.</summary>
    public string? FaultIn(Ledger ledger, string edition, SignedComparison seen)
    {
        var author = ledger.SignatureUnder(edition, DeedKind.SignedAsAuthor);
        var other = Kind == DeedKind.SignedAsAuthor ? ledger.SignatureUnder(edition, DeedKind.SignedAsApprover) : author;
        if (Kind == DeedKind.SignedAsApprover && author is null)
            return "an approver signs what an author has signed, and no author has signed this edition yet.";
        if (Kind == DeedKind.SignedAsApprover && other is not null && SamePerson.Is(other.Name, Name))
            return $"author and approver are two people, and \"{other.Name}\" has signed this edition as the author.";
        if (Kind == DeedKind.SignedAsAuthor && other is not null && SamePerson.Is(other.Name, Name))
            return $"author and approver are two people, and \"{other.Name}\" has signed this edition as the approver.";
        return Kind == DeedKind.SignedAsApprover && author?.Seen?.Hash != seen.Hash
            ? "the author signed another comparison than the one above; the author has to sign again first."
            : null;
    }
}
