using System.Collections.Immutable;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps incidents in the file of the turns, so that erasing a conversation takes them with it.</summary>
sealed class LiteIncidents(LiteTurnStore turns, StoreFile file) : IIncidents
{
    public async ValueTask<bool> AddAsync(Incident incident, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(incident);
        return await turns.DoAsync(() => IncidentDocuments.Add(file.Database, incident)).ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<Incident>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(IncidentDocuments.All));
}
