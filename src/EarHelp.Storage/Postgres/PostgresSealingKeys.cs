using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps the keys that all nodes seal with.</summary>
sealed class PostgresSealingKeys(Database database) : ISealingKeys
{
    public async ValueTask AddAsync(SealingKey key, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(key);
        await database.UseAsync(
            c => c.DoAsync("insert into sealing_keys (name, body) values ($1, $2) on conflict do nothing", cancellation, key.Name, key.Body), cancellation).ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<SealingKey>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<SealingKey>>(
        async c => [.. (await c.ListAsync("select name, body from sealing_keys", r => new SealingKey(r.GetString(0), r.GetString(1)), cancellation).ConfigureAwait(false))
            .OrderBy(k => k.Name, StringComparer.Ordinal)],
        cancellation);
}
