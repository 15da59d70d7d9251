using System.Text;
using EarHelp.Servers.Host;
using EarHelp.Storage.Postgres;
using Npgsql;

namespace EarHelp.Storage.Tests.Places;

/// <summary>A schema of its own on a real PostgreSQL server.</summary>
public sealed class PostgresPlace : StorePlace
{
    static readonly string[] Tables = ["conversations", "turns", "keys", "requests", "staff", "editions", "visits", "incidents", "callers", "follow_ups"];

    PostgresPlace(string address) => Address = address;

    public string Address { get; }

    public static async Task<PostgresPlace> MakeAsync() => new(await PostgresServer.NewSchemaAsync());

    public override IStore Open() => PostgresStore.Open(Address, new StoreOptions());

    public override async Task<bool> HoldsAsync(string text)
    {
        var bytes = Convert.ToHexStringLower(Encoding.UTF8.GetBytes(text));
        var rows = string.Join(" union all ", Tables.Select(t => $"select {t}::text as row from {t}"));
        return (long)(await FirstAsync($"select count(*) from ({rows}) r where row like '%{bytes}%' or row like '%{text}%'"))! > 0;
    }

    public override async Task TamperAsync(string chain, int number, byte[]? body) => await PostgresServer.DoAsync(
        Address,
        body is null ? $"delete from {chain} where number = {number}" : $"update {chain} set body = '\\x{Convert.ToHexStringLower(body)}' where number = {number}");

    public async Task<object?> FirstAsync(string sql)
    {
        await using var source = NpgsqlDataSource.Create(Address + ";Pooling=false");
        await using var command = source.CreateCommand(sql);
        return await command.ExecuteScalarAsync();
    }

    public override async ValueTask DisposeAsync() =>
        await PostgresServer.DoAsync(Address, $"drop schema {new NpgsqlConnectionStringBuilder(Address).SearchPath} cascade");
}
