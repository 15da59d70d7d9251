using System.Collections.Immutable;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps incidents that were reported.</summary>
sealed class PostgresIncidents(Database database) : IIncidents
{
    const string Insert = "insert into incidents (id, conversation, body) values ($1, $2, $3) on conflict (id) do nothing";

    public ValueTask<bool> AddAsync(Incident incident, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(incident);
        return database.UseAsync(c => c.IsKeptAsync(Insert, cancellation, incident.Id, incident.Conversation, IncidentJson.Write(incident)), cancellation);
    }

    public ValueTask<ImmutableArray<Incident>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<Incident>>(
        async c =>
        {
            var all = await c.ListAsync("select body from incidents", r => IncidentJson.Read(r.GetFieldValue<byte[]>(0)), cancellation).ConfigureAwait(false);
            return [.. all.OrderByDescending(i => i.At).ThenBy(i => i.Id, StringComparer.Ordinal)];
        },
        cancellation);
}
