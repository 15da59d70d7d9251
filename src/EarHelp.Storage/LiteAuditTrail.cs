using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps the audit trail in the file of the turns. Erasing a conversation leaves its rows: they hold nothing of what was said.</summary>
sealed class LiteAuditTrail(LiteTurnStore turns, StoreFile file) : IAuditTrail
{
    public async ValueTask AddAsync(AuditEntry entry, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var body = AuditJson.Write(entry);
        await turns.DoAsync(() => ChainDocuments.Append(file.Database, ChainDocuments.Audit, body)).ConfigureAwait(false);
    }

    public ValueTask<AuditRead> ReadAsync(CancellationToken cancellation)
    {
        var records = turns.Read(d => ChainDocuments.All(d, ChainDocuments.Audit));
        var damaged = ChainDocuments.FirstDamaged(records);
        ImmutableArray<AuditEntry> entries = [.. records.TakeWhile(r => r.Number != damaged).Select(r => AuditJson.Read(r.Body.Span))];
        return ValueTask.FromResult(new AuditRead(entries, damaged));
    }
}
