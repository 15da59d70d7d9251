using System.Collections.Immutable;

namespace EarHelp.Conversation.Signing;

/// <summary>What can be done about an edition, and about the triage that rests on it.</summary>
public enum DeedKind
{
    SignedAsAuthor,
    SignedAsApprover,
    Published,

    /// <summary>From now on the files on the disk are served again, as if none had been published.</summary>
    FilesFollowed,

    /// <summary>One outcome, or all triage, is not told any more.</summary>
    Withdrawn,

    /// <summary>What was withdrawn is told again.</summary>
    Lifted,

    /// <summary>All that this store ever holds is made up: it never becomes a real one.</summary>
    Invented,
}

/// <summary>What somebody did.</summary>
/// <param name="Edition">The whole identifier of the edition, which is the hash of its sources; of a withdrawal: the one that was served then, empty if none.</param>
/// <param name="AtUnixMilliseconds">When, UTC.</param>
/// <param name="Seen">The comparison that was signed; null unless it is a signature.</param>
/// <param name="ExpiresUnixMilliseconds">From this instant on it is no signature any more; null unless it is one.</param>
/// <param name="Outcome">Of a withdrawal and its end: the level whose outcome it is; null: all triage.</param>
public sealed record Deed(
    DeedKind Kind,
    string Edition,
    long AtUnixMilliseconds,
    string Name,
    string Role,
    string Reason,
    SeenComparison? Seen = null,
    long? ExpiresUnixMilliseconds = null,
    string? Outcome = null);

/// <summary>For whom the result changes, as the person who signed saw it.</summary>
/// <param name="Against">The edition it was compared with; null: none had been signed before.</param>
/// <param name="Hash">Lower-case hex SHA-256 of the whole comparison.</param>
/// <param name="Summary">In one line.</param>
/// <param name="Confirmed">Identifiers of the decreases of urgency that the person named.</param>
public sealed record SeenComparison(string? Against, string Hash, string Summary, ImmutableArray<string> Confirmed);
