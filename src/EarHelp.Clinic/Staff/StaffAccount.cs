using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Clinic.Staff;

/// <summary>The account of one member of staff.</summary>
/// <param name="Version">From 1; each change is the next one.</param>
/// <param name="ShownName">As colleagues and the audit trail read it.</param>
/// <param name="Stamp">Changes whenever every earlier sign-in must end.</param>
public sealed record StaffAccount(string Id, int Version, string ShownName, ImmutableArray<StaffRole> Roles, StaffState State, string Stamp)
{
    /// <summary>The name by which the person signs in, in small letters; empty until the invitation is taken.</summary>
    public string SignInName { get; init; } = "";

    /// <summary>What proves the password; null: there is none.</summary>
    public string? PasswordHash { get; init; }

    /// <summary>The key of the one-time codes, encrypted; null: there is none.</summary>
    public string? SealedCodeKey { get; init; }

    /// <summary>The one-time code that was used last: none is taken twice (RFC 6238, 5.2).</summary>
    public string? SpentCode { get; init; }

    /// <summary>Wrong sign-ins in a row.</summary>
    public int Failures { get; init; }

    /// <summary>Nobody signs in to this account before; null: it is not locked.</summary>
    public Instant? LockedUntil { get; init; }

    /// <summary>What brings the person in for the first time, or again after everything was lost; null: there is none.</summary>
    public Invitation? Invitation { get; init; }

    /// <summary>True from when the person says so until they say otherwise: requests that nobody answers go to them.</summary>
    public bool IsOnDuty { get; init; }

    public ImmutableArray<Passkey> Passkeys { get; init; } = [];

    /// <summary>True for somebody who signs in at the clinic's own provider, which says the name and the roles each time.</summary>
    public bool IsFromProvider { get; init; }

    /// <summary>Lower-case hex SHA-256 of the token by which one of the clinic's own systems reads; null: it is no system, or may not any more.</summary>
    public string? TokenHash { get; init; }

    public bool Has(StaffRole role) => State == StaffState.Open && Roles.Contains(role);
}

/// <param name="Hash">Lower-case hex SHA-256 of the code; the code itself is not kept.</param>
/// <param name="Until">From then on it opens nothing.</param>
public sealed record Invitation(string Hash, Instant Until);

/// <summary>What a member of staff may do. A person may have several.</summary>
public enum StaffRole
{
    /// <summary>Answers requests; may call a request more urgent, never less.</summary>
    Desk,

    /// <summary>Sees patients; may call a request more or less urgent.</summary>
    Clinician,

    /// <summary>Writes editions.</summary>
    Author,

    /// <summary>Releases editions.</summary>
    Approver,

    /// <summary>Invites staff, changes roles, closes accounts, reads the audit trail.</summary>
    Administrator,

    /// <summary>Nobody: one of the clinic's own systems, which reads by a token and never signs in.</summary>
    System,
}

public enum StaffState
{
    /// <summary>Nobody has taken the invitation yet.</summary>
    Invited,
    Open,

    /// <summary>For good.</summary>
    Closed,
}
