using Benchmarks.Figures;
using EarHelp.Servers.Host;
using Npgsql;

namespace Benchmarks.Serving;

/// <summary>
/// Several clinics on one PostgreSQL server, each with its own service and its own schema: what they carry together, and, calculated from
/// that, how many clinics there could be before something runs out.
/// </summary>
static class ClinicsReport
{
    const int Clinics = 4;
    const int Connections = 64;
    static readonly TimeSpan Length = TimeSpan.FromSeconds(15);

    // What a clinic is taken to need, on the high side (common practice): 20 visits a day, 5 conversations a visit, a fifth of the day's in its busiest hour.
    const double ConversationsADay = 20 * 5;
    const double BusiestHour = 0.2;
    const double DaysAYear = 365;

    /// <summary>What is left free for repairs, sweeps and bursts.</summary>
    const double Headroom = 0.5;

    /// <summary>What a server of PostgreSQL lets in unless it is told otherwise.</summary>
    const int ConnectionsOfServer = 100;

    public static async Task AddAsync(FigureTable table)
    {
        await using var postgres = await PostgresServer.StartAsync();
        await using var database = NpgsqlDataSource.Create(postgres.Address);
        var services = new List<ServerProcess>();
        try
        {
            for (var clinic = 0; clinic < Clinics; clinic++)
                services.Add(await ServerProcess.EarHelpAsync("--store", await PostgresServer.NewSchemaAsync(postgres.Address)));
            var kinds = new Dictionary<string, Func<int, ITurnSender>> { ["all"] = n => new PageSender(services[n % Clinics].Address) };
            await LoadAsync(kinds);
            var figures = await LoadAsync(kinds);
            var used = await CountAsync(database, "select count(*) from pg_stat_activity where backend_type = 'client backend'") - 1;
            var (turns, conversations, bytes) = await KeptAsync(database);
            Add(table, new Carried(figures.TurnsASecond, figures.OfHundred99, turns / conversations, bytes / conversations, used / Clinics, services.Average(s => s.MegabytesInUse)));
        }
        finally
        {
            services.ForEach(s => s.Dispose());
        }
    }

    static async Task<LoadFigures> LoadAsync(Dictionary<string, Func<int, ITurnSender>> kinds)
    {
        var senders = Enumerable.Range(0, Connections).Select(kinds["all"]).ToList();
        try
        {
            return await Load.RunAsync(senders, Length);
        }
        finally
        {
            senders.ForEach(s => s.Dispose());
        }
    }

    static void Add(FigureTable table, Carried carried)
    {
        var busy = ConversationsADay * BusiestHour * carried.TurnsAConversation / 3600;
        table.Add($"{Clinics} clinics on one PostgreSQL server, {Connections} connections", $"{FigureTable.Of(carried.TurnsASecond, "turns/s")}, p99 {FigureTable.Of(carried.Slow, "ms")}", "reported");
        table.Add("turns of one conversation", FigureTable.Of(carried.TurnsAConversation, "turns"), "");
        table.Add("kept for one conversation, with indexes", FigureTable.Of(carried.BytesAConversation, "bytes"), "");
        table.Add("connections to the server, one clinic", FigureTable.Of(carried.ConnectionsAClinic, "connections"), "");
        table.Add("memory of the service, one clinic", FigureTable.Of(carried.Megabytes, "MB"), "");
        table.Add("a clinic in its busiest hour, calculated", FigureTable.Of(busy, "turns/s"), "");
        table.Add($"clinics until the turns run out, at {Headroom:P0} of them, calculated", FigureTable.Of(carried.TurnsASecond * Headroom / busy, "clinics"), "");
        table.Add($"clinics until {ConnectionsOfServer} connections run out, calculated", FigureTable.Of(ConnectionsOfServer / carried.ConnectionsAClinic, "clinics"), "");
        table.Add("services in 16 GB of memory, calculated", FigureTable.Of(16_000 / carried.Megabytes, "clinics"), "");
        table.Add("disk of one clinic in a year if nothing were swept, calculated", FigureTable.Of(ConversationsADay * DaysAYear * carried.BytesAConversation / 1_000_000, "MB"), "");
    }

    static async Task<(double Turns, double Conversations, double Bytes)> KeptAsync(NpgsqlDataSource database)
    {
        await using var command = database.CreateCommand("select schemaname from pg_tables where tablename = 'turns'");
        await using var reader = await command.ExecuteReaderAsync();
        var schemas = new List<string>();
        while (await reader.ReadAsync())
            schemas.Add(reader.GetString(0));
        var (turns, conversations, bytes) = (0.0, 0.0, 0.0);
        foreach (var schema in schemas)
        {
            turns += await CountAsync(database, $"select count(*) from {schema}.turns");
            conversations += await CountAsync(database, $"select count(distinct conversation) from {schema}.turns");
            bytes += await CountAsync(database, $"select sum(pg_total_relation_size(schemaname || '.' || tablename))::bigint from pg_tables where schemaname = '{schema}'");
        }

        return (turns, conversations, bytes);
    }

    static async Task<double> CountAsync(NpgsqlDataSource database, string sql)
    {
        await using var command = database.CreateCommand(sql);
        return (long)(await command.ExecuteScalarAsync())!;
    }

    /// <param name="Slow">What 99 of 100 turns do not exceed. Unit: milliseconds.</param>
    sealed record Carried(double TurnsASecond, double Slow, double TurnsAConversation, double BytesAConversation, double ConnectionsAClinic, double Megabytes);
}
