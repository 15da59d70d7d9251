using System.Collections.Concurrent;
using Npgsql;

namespace Benchmarks.Serving;

/// <summary>The turns of which a browser was told that they are kept, and whether they are.</summary>
sealed class AcknowledgedTurns
{
    readonly ConcurrentBag<string> _turns = [];

    public int Count => _turns.Count;

    public void Add(string turn) => _turns.Add(turn);

    /// <summary>How many of them the database does not have exactly once.</summary>
    public async Task<long> LostAsync(string address)
    {
        await using var source = NpgsqlDataSource.Create(address);
        await using var command = source.CreateCommand("""
            with kept as (select turn_id, count(*) as times from turns group by turn_id)
            select count(*) from unnest($1) as told(turn) left join kept on kept.turn_id = told.turn where kept.times is distinct from 1
            """);
        command.Parameters.AddWithValue(_turns.Distinct(StringComparer.Ordinal).ToArray());
        return (long)(await command.ExecuteScalarAsync())!;
    }
}
