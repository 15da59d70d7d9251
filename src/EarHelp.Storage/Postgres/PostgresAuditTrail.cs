using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Records;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps the audit trail of all nodes as one chain.</summary>
sealed class PostgresAuditTrail(Database database) : IAuditTrail
{
    public async ValueTask AddAsync(AuditEntry entry, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var body = AuditJson.Write(entry);
        await database.TransactAsync(
            async connection =>
            {
                await connection.DoAsync("lock table audit in share row exclusive mode", cancellation).ConfigureAwait(false);
                var last = await ChainRows.LastAsync(connection, ChainRows.Audit, cancellation).ConfigureAwait(false);
                return await ChainRows.AddAsync(connection, ChainRows.Audit, ChainedRecord.After(last, body), cancellation).ConfigureAwait(false);
            },
            cancellation).ConfigureAwait(false);
    }

    public async ValueTask<AuditRead> ReadAsync(CancellationToken cancellation)
    {
        var records = await database.UseAsync(c => ChainRows.AllAsync(c, ChainRows.Audit, cancellation), cancellation).ConfigureAwait(false);
        var damaged = ChainDocuments.FirstDamaged(records);
        ImmutableArray<AuditEntry> entries = [.. records.TakeWhile(r => r.Number != damaged).Select(r => AuditJson.Read(r.Body.Span))];
        return new AuditRead(entries, damaged);
    }
}
