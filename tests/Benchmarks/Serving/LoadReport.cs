using Benchmarks.Figures;
using EarHelp.Servers.Host;

namespace Benchmarks.Serving;

/// <summary>
/// Turns a second of the page and of the bot endpoint, on a file and on PostgreSQL, with one node and with two, beside the SDK's echo bot
/// and a bare server, taking turns in one run.
/// </summary>
static class LoadReport
{
    const int Rounds = 3;
    static readonly TimeSpan Length = TimeSpan.FromSeconds(5);
    static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(8);

    const string Echo = "echo bot of the SDK, in memory";
    const string Bot = "bot endpoint, on LiteDB";
    const string Page = "page, on LiteDB";
    const string PageOnPostgres = "page, on PostgreSQL";
    const string PageOnTwoNodes = "page, two nodes on PostgreSQL";
    const string Bare = "bare server, the same bytes";

    public static async Task AddAsync(FigureTable table)
    {
        var folder = Directory.CreateTempSubdirectory("earhelp-keys-").FullName;
        var token = ChannelToken.Make(folder);
        await using var postgres = await PostgresServer.StartAsync();
        string[] onPostgres = ["--store", postgres.Address];
        using var echo = await ServerProcess.EchoBotAsync(token.KeysFile);
        using var ours = await ServerProcess.EarHelpAsync(token.Settings);
        using var first = await ServerProcess.EarHelpAsync(onPostgres);
        using var second = await ServerProcess.EarHelpAsync(onPostgres);
        var (bytes, form) = await TurnOfPageAsync(ours.Address, folder);
        using var bare = await ServerProcess.BareAsync(bytes);
        var acknowledged = new AcknowledgedTurns();
        var kinds = new Dictionary<string, Func<int, ITurnSender>>
        {
            [Echo] = n => new BotSender(echo.Address, n, token.Bearer, answers: false),
            [Bot] = n => new BotSender(ours.Address, n, token.Bearer, answers: true),
            [Page] = _ => new PageSender(ours.Address),
            ["page without JavaScript (two requests), on LiteDB"] = _ => new PageSender(ours.Address, hasScript: false),
            [PageOnPostgres] = _ => new PageSender(first.Address, acknowledged: acknowledged),
            [PageOnTwoNodes] = n => new PageSender(n % 2 == 0 ? first.Address : second.Address, acknowledged: acknowledged),
            [Bare] = _ => new BareSender(bare.Address, form),
        };
        foreach (var connections in (int[])[1, 64])
            Add(table, connections, await MeasureAsync(kinds, connections));
        var lost = await acknowledged.LostAsync(postgres.Address);
        table.Add("turns that PostgreSQL acknowledged and does not have, one node or two", $"{lost} of {acknowledged.Count:N0}", "0", lost == 0);
        table.Add("memory of EarHelp on LiteDB after this", FigureTable.Of(ours.MegabytesInUse, "MB"), "");
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Only the page, at 64 connections, of services that run already; they take turns.</summary>
    public static async Task RunPagesAsync(IReadOnlyList<Uri> addresses)
    {
        var kinds = addresses.ToDictionary(a => a.ToString(), a => new Func<int, ITurnSender>(_ => new PageSender(a)));
        foreach (var (name, figures) in await MeasureAsync(kinds, 64))
        {
            Console.WriteLine(
                $"{name}: {FigureTable.Of(Middle(figures, f => f.TurnsASecond), "turns/s")}, p50 {FigureTable.Of(Middle(figures, f => f.Median), "ms")}, "
                + $"p99 {FigureTable.Of(Middle(figures, f => f.OfHundred99), "ms")}");
        }
    }

    /// <summary>By kind, its figures of alternating rounds; the first round, in which the servers are still being compiled, is left out.</summary>
    public static async Task<Dictionary<string, List<LoadFigures>>> MeasureAsync(IReadOnlyDictionary<string, Func<int, ITurnSender>> kinds, int connections)
    {
        var figures = kinds.ToDictionary(k => k.Key, _ => new List<LoadFigures>());
        for (var round = 0; round <= Rounds; round++)
        {
            foreach (var (name, make) in kinds)
            {
                var measured = await MeasureAsync(make, (round * 1000) + (connections * 10_000), connections, round == 0 ? WarmUp : Length);
                if (round > 0)
                    figures[name].Add(measured);
            }
        }

        return figures;
    }

    public static double Middle(List<LoadFigures> rounds, Func<LoadFigures, double> of) => rounds.Select(of).Order().ElementAt(rounds.Count / 2);

    static async Task<LoadFigures> MeasureAsync(Func<int, ITurnSender> make, int first, int connections, TimeSpan length)
    {
        var senders = Enumerable.Range(first, connections).Select(make).ToList();
        try
        {
            return await Load.RunAsync(senders, length);
        }
        finally
        {
            senders.ForEach(s => s.Dispose());
        }
    }

    /// <summary>What one turn of the page posts, and a file with what it is answered with.</summary>
    static async Task<(string BytesFile, string Form)> TurnOfPageAsync(Uri address, string folder)
    {
        using var page = new PageSender(address);
        var form = string.Empty;
        for (var turn = 0; turn < 3; turn++)
        {
            await page.PrepareAsync();
            form = await page.FormAsync();
            await page.SendAsync();
        }

        var file = Path.Combine(folder, "answer");
        await File.WriteAllTextAsync(file, page.Page);
        return (file, form);
    }

    static void Add(FigureTable table, int connections, Dictionary<string, List<LoadFigures>> figures)
    {
        var echo = Middle(figures[Echo], f => f.TurnsASecond);
        foreach (var (name, rounds) in figures)
        {
            var turns = Middle(rounds, f => f.TurnsASecond);
            var slow = Middle(rounds, f => f.OfHundred99);
            var (target, isMet) = TargetOf(name, connections, turns / echo, slow);
            table.Add(
                $"{name}, {connections} connection(s)",
                $"{FigureTable.Of(turns, "turns/s")} ({FigureTable.Of(turns / echo, "times echo")}), p50 {FigureTable.Of(Middle(rounds, f => f.Median), "ms")}, p99 {FigureTable.Of(slow, "ms")}",
                target,
                isMet);
        }
    }

    static (string Target, bool? IsMet) TargetOf(string name, int connections, double timesEcho, double slow) => (name, connections) switch
    {
        (Page, 64) => ("at least 2 times echo, p99 under 20 ms", timesEcho >= 2 && slow < 20),
        (Page, 1) => ("p99 under 8 ms", slow < 8),
        (Bot, 64) => ("at least 1 time echo", timesEcho >= 1),
        (PageOnPostgres, 64) => ("at least 1 time echo", timesEcho >= 1),
        (PageOnTwoNodes, 64) or (Bare, 64) => ("reported", null),
        _ => ("", null),
    };
}
