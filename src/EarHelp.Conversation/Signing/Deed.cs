using System.Collections.Immutable;

namespace EarHelp.Conversation.Signing;

/// <summary>What can be done about an edition.</summary>
public enum DeedKind
{
    SignedAsAuthor,
    SignedAsApprover,
    Published,
}

/// <summary>What somebody did about an edition.</summary>
/// <param name="Edition">Its whole identifier, which is the hash of its sources.</param>
/// <param name="AtUnixMilliseconds">When, UTC.</param>
/// <param name="Seen">The comparison that was signed; null unless it is a signature.</param>
/// <param name="ExpiresUnixMilliseconds">From this instant on it is no signature any more; null unless it is one.</param>
public sealed record Deed(
    DeedKind Kind,
    string Edition,
    long AtUnixMilliseconds,
    string Name,
    string Role,
    string Reason,
    SeenComparison? Seen,
    long? ExpiresUnixMilliseconds);

/// <summary>For whom the result changes, as the person who signed saw it.</summary>
/// <param name="Against">The edition it was compared with; null: none had been signed before.</param>
/// <param name="Hash">Lower-case hex SHA-256 of the whole comparison.</param>
/// <param name="Summary">In one line.</param>
/// <param name="Confirmed">Identifiers of the decreases of urgency that the person named.</param>
public sealed record SeenComparison(string? Against, string Hash, string Summary, ImmutableArray<string> Confirmed);
