namespace EarHelp.Clinic.Auditing;

/// <summary>What kind of thing was done. A name stands in kept records: it is never changed or used for something else.</summary>
public enum AuditDeed
{
    SignedIn,
    SignedOut,
    SignInRefused,
    Invited,
    Joined,
    RolesChanged,
    AccountClosed,
    PasskeyAdded,
    PasskeyRemoved,
    ReadAudit,
    ListedRequests,
    ReadConversation,
    ListedAffected,
    Erased,
}
