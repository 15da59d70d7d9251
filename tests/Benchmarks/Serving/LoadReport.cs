using Benchmarks.Figures;

namespace Benchmarks.Serving;

/// <summary>Turns a second of the page and of the bot endpoint beside the SDK's echo bot and a bare server, taking turns in one run.</summary>
static class LoadReport
{
    const int Rounds = 3;
    static readonly TimeSpan Length = TimeSpan.FromSeconds(5);
    static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(8);

    const string Echo = "echo bot of the SDK, in memory";
    const string Bot = "bot endpoint, on disk";
    const string Page = "page, on disk";

    public static async Task RunAsync()
    {
        var folder = Directory.CreateTempSubdirectory("earhelp-keys-").FullName;
        var token = ChannelToken.Make(folder);
        using var echo = await ServerProcess.EchoBotAsync(token.KeysFile);
        using var ours = await ServerProcess.EarHelpAsync(token.Settings);
        var (bytes, form) = await TurnOfPageAsync(ours.Address, folder);
        using var bare = await ServerProcess.BareAsync(bytes);
        var kinds = new Dictionary<string, Func<int, ITurnSender>>
        {
            [Echo] = n => new BotSender(echo.Address, n, token.Bearer),
            [Bot] = n => new BotSender(ours.Address, n, token.Bearer),
            [Page] = _ => new PageSender(ours.Address),
            ["page without JavaScript (two requests), on disk"] = _ => new PageSender(ours.Address, hasScript: false),
            ["bare server, the same bytes"] = _ => new BareSender(bare.Address, form),
        };
        foreach (var connections in (int[])[1, 64])
            Print(connections, await MeasureAsync(kinds, connections));
        Console.WriteLine($"\nResident memory of EarHelp after this: {FigureTable.Of(ours.MegabytesInUse, "MB")}.");
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Only the page, at 64 connections, of a service that runs already.</summary>
    public static async Task RunPageAsync(Uri address)
    {
        for (var round = 0; round < Rounds; round++)
        {
            var figures = await MeasureAsync(_ => new PageSender(address), 0, 64, Length);
            Console.WriteLine($"{FigureTable.Of(figures.TurnsASecond, "turns/s")}, p50 {FigureTable.Of(figures.Median, "ms")}, p99 {FigureTable.Of(figures.OfHundred99, "ms")}");
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

    static void Print(int connections, Dictionary<string, List<LoadFigures>> figures)
    {
        var table = new FigureTable($"{connections} connection(s), medians of {Rounds} alternating rounds");
        var echo = Middle(figures[Echo], f => f.TurnsASecond);
        foreach (var (name, rounds) in figures)
        {
            var turns = Middle(rounds, f => f.TurnsASecond);
            table.Add(
                name,
                $"{FigureTable.Of(turns, "turns/s")} ({FigureTable.Of(turns / echo, "times echo")}), p50 {FigureTable.Of(Middle(rounds, f => f.Median), "ms")}, p99 {FigureTable.Of(Middle(rounds, f => f.OfHundred99), "ms")}",
                TargetOf(name, connections));
        }

        table.Print(Console.Out);
    }

    static string TargetOf(string name, int connections) => (name, connections) switch
    {
        (Page, 64) => "at least 2 times echo, p99 under 20 ms",
        (Page, 1) => "p99 under 8 ms",
        (Bot, 64) => "at least 1 time echo",
        _ => "",
    };
}
