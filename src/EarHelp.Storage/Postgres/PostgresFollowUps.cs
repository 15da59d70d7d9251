using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps follow-ups.</summary>
sealed class PostgresFollowUps(Database database) : IFollowUps
{
    const string Insert = "insert into follow_ups (conversation, version, body) select id, $2, $3 from conversations where id = $1 on conflict (conversation) do nothing";

    const string Update = "update follow_ups set version = $2, body = $3 where conversation = $1 and version = $2 - 1";

    public ValueTask<bool> PutAsync(FollowUp followUp, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return database.UseAsync(
            async c => await c.DoAsync(followUp.Version == 1 ? Insert : Update, cancellation, followUp.Conversation, followUp.Version, FollowUpJson.Write(followUp)).ConfigureAwait(false) == 1,
            cancellation);
    }

    public ValueTask<FollowUp?> FindAsync(string conversation, CancellationToken cancellation) => database.UseAsync(
        async c => (await c.ListAsync("select body from follow_ups where conversation = $1", Read, cancellation, conversation).ConfigureAwait(false)).FirstOrDefault(), cancellation);

    public ValueTask<ImmutableArray<FollowUp>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<FollowUp>>(
        async c => [.. await c.ListAsync("select body from follow_ups order by conversation", Read, cancellation).ConfigureAwait(false)], cancellation);

    static FollowUp Read(NpgsqlDataReader row) => FollowUpJson.Read(row.GetFieldValue<byte[]>(0));
}
