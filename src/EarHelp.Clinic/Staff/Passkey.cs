using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Clinic.Staff;

/// <summary>What is kept of a passkey: its public half (Web Authentication Level 3, 4, "credential record").</summary>
/// <param name="Id">Base64 of the credential's identifier.</param>
/// <param name="PublicKey">Base64.</param>
/// <param name="Attestation">Base64 of what the authenticator said when it was made.</param>
/// <param name="ClientJson">Base64 of what the browser said when it was made.</param>
public sealed record Passkey(
    string Id,
    string PublicKey,
    Instant MadeAt,
    long SignCount,
    ImmutableArray<string> Transports,
    bool IsUserVerified,
    bool IsBackupEligible,
    bool IsBackedUp,
    string Attestation,
    string ClientJson);
