using EarHelp.Conversation.Signing;

namespace EarHelp.Web.Signing;

/// <summary>The edition with which one who signs compares, and why it is that one.</summary>
/// <param name="Edition">Its identifier, or null: there is none.</param>
/// <param name="Why">A whole sentence for the person who signs.</param>
public sealed record ComparedWith(string? Edition, string Why)
{
    /// <summary>
    /// The edition that is served, if it was ever signed. Else what patients last had from two people's hands: a draft that is served as
    /// a demonstration would hide the decreases of urgency that came with it.
    /// </summary>
    /// <param name="edition">The edition that is to be signed.</param>
    /// <param name="served">What a running service serves; null: none runs, or it serves none.</param>
    public static ComparedWith For(string edition, string? served, Ledger ledger)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        if (served is not null && served != edition && ledger.SignedUntil(served) is not null)
            return new ComparedWith(served, $"Compared with edition {served}, which the running service serves now.");
        var because = served is null ? "no service is running that serves one"
            : served == edition ? "the running service serves the very edition that is to be signed"
            : $"nobody has signed edition {served}, which the running service serves now";
        if (ledger.LastPublishedBesides(edition) is { } published)
            return new ComparedWith(published, $"Compared with edition {published}, which was published last ({because}).");
        if (ledger.LastSignedBesides(edition) is { } signed)
            return new ComparedWith(signed, $"Compared with edition {signed}, which was signed last ({because}).");
        return served is not null && served != edition
            ? new ComparedWith(served, $"Compared with edition {served}, which the running service serves now as a demonstration; none was signed or published before.")
            : new ComparedWith(null, $"There is nothing to compare edition {edition} with: no other one was signed or published before, and {because}.");
    }
}
