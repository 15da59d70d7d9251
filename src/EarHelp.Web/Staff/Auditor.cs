using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>Adds to the audit trail; whatever is then shown or done waits for it.</summary>
public sealed class Auditor(IAuditTrail trail, TimeProvider clock)
{
    /// <param name="who">Identifier of an account, or one of <see cref="Actor"/>.</param>
    public ValueTask AddAsync(string who, AuditDeed deed, string? conversation, CancellationToken cancellation) =>
        trail.AddAsync(new AuditEntry(Instant.FromDateTimeOffset(clock.GetUtcNow()), who, deed, conversation), cancellation);

    public ValueTask AddAboutAccountAsync(string who, AuditDeed deed, string account, CancellationToken cancellation) =>
        trail.AddAsync(new AuditEntry(Instant.FromDateTimeOffset(clock.GetUtcNow()), who, deed, null) { Account = account }, cancellation);
}
