using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Staff;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps the accounts of staff.</summary>
sealed class PostgresStaffStore(Database database) : IStaffStore
{
    const string Insert = "insert into staff (id, version, sign_in_name, body) values ($1, $2, $3, $4) on conflict (id) do nothing";

    const string Update = "update staff set version = $2, sign_in_name = $3, body = $4 where id = $1 and version = $2 - 1";

    public ValueTask<StaffPut> PutAsync(StaffAccount account, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(account);
        return database.UseAsync(
            async connection =>
            {
                try
                {
                    var rows = await connection.DoAsync(
                        account.Version == 1 ? Insert : Update,
                        cancellation,
                        account.Id, account.Version, account.SignInName, StaffJson.Write(account)).ConfigureAwait(false);
                    return rows == 1 ? StaffPut.Kept : StaffPut.Stale;
                }
                catch (PostgresException taken) when (taken.SqlState == PostgresErrorCodes.UniqueViolation)
                {
                    return StaffPut.NameTaken;
                }
            },
            cancellation);
    }

    public ValueTask<StaffAccount?> FindAsync(string id, CancellationToken cancellation) => database.UseAsync(
        async c => (await c.ListAsync("select body from staff where id = $1", Read, cancellation, id).ConfigureAwait(false)).FirstOrDefault(), cancellation);

    public ValueTask<ImmutableArray<StaffAccount>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<StaffAccount>>(
        async c => [.. (await c.ListAsync("select body from staff", Read, cancellation).ConfigureAwait(false)).OrderBy(a => a.Id, StringComparer.Ordinal)], cancellation);

    static StaffAccount Read(NpgsqlDataReader row) => StaffJson.Read(row.GetFieldValue<byte[]>(0));
}
