using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>One statement with its values in the order of <c>$1, $2, ...</c>; null is no value.</summary>
static class Statements
{
    /// <returns>How many rows it touched.</returns>
    public static async Task<int> DoAsync(this NpgsqlConnection connection, string sql, CancellationToken cancellation, params object?[] values)
    {
        var command = Make(connection, sql, values);
        await using var _ = command.ConfigureAwait(false);
        return await command.ExecuteNonQueryAsync(cancellation).ConfigureAwait(false);
    }

    /// <returns>The first column of the first row; null if there is none.</returns>
    public static async Task<object?> FirstAsync(this NpgsqlConnection connection, string sql, CancellationToken cancellation, params object?[] values)
    {
        var command = Make(connection, sql, values);
        await using var _ = command.ConfigureAwait(false);
        return await command.ExecuteScalarAsync(cancellation).ConfigureAwait(false) is var first and not DBNull ? first : null;
    }

    public static async Task<List<T>> ListAsync<T>(
        this NpgsqlConnection connection, string sql, Func<NpgsqlDataReader, T> read, CancellationToken cancellation, params object?[] values)
    {
        var command = Make(connection, sql, values);
        await using var _ = command.ConfigureAwait(false);
        var reader = await command.ExecuteReaderAsync(cancellation).ConfigureAwait(false);
        await using var __ = reader.ConfigureAwait(false);
        var rows = new List<T>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            rows.Add(read(reader));
        return rows;
    }

    /// <summary>Keeps a row that belongs to a conversation.</summary>
    /// <returns>False if the conversation is not there any more.</returns>
    public static async Task<bool> IsKeptAsync(this NpgsqlConnection connection, string sql, CancellationToken cancellation, params object?[] values)
    {
        try
        {
            await connection.DoAsync(sql, cancellation, values).ConfigureAwait(false);
            return true;
        }
        catch (PostgresException gone) when (gone.SqlState == PostgresErrorCodes.ForeignKeyViolation)
        {
            return false;
        }
    }

    static NpgsqlCommand Make(NpgsqlConnection connection, string sql, object?[] values)
    {
        var command = new NpgsqlCommand(sql, connection);
        foreach (var value in values)
            command.Parameters.Add(new NpgsqlParameter { Value = value ?? DBNull.Value });
        return command;
    }
}
