using NodaTime;

namespace EarHelp.Clinic.Auditing;

/// <summary>That somebody read or changed something. It holds no name of a patient and no word about health.</summary>
/// <param name="Who">Identifier of an account, or one of <see cref="Actor"/>.</param>
/// <param name="Conversation">Whose record it was, by the identifier of the conversation; null: of no single person.</param>
public sealed record AuditEntry(Instant At, string Who, AuditDeed Deed, string? Conversation)
{
    /// <summary>The account that was changed, or null.</summary>
    public string? Account { get; init; }
}

/// <summary>Who acts without an account.</summary>
public static class Actor
{
    /// <summary>Whoever may use the service's data folder: the command line.</summary>
    public const string Terminal = "terminal";

    /// <summary>The service itself, by the clock.</summary>
    public const string Service = "service";
}
