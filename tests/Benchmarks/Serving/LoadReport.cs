using Benchmarks.Figures;

namespace Benchmarks.Serving;

/// <summary>Turns a second of the page and of the bot endpoint beside the SDK's echo bot, taking turns in one run.</summary>
static class LoadReport
{
    const int Rounds = 3;
    static readonly TimeSpan Length = TimeSpan.FromSeconds(6);
    static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(3);

    public static async Task RunAsync()
    {
        var folder = Directory.CreateTempSubdirectory("earhelp-keys-").FullName;
        var token = ChannelToken.Make(folder);
        using var echo = await ServerProcess.EchoBotAsync();
        using var ours = await ServerProcess.EarHelpAsync(token.Settings);
        var kinds = new (string Name, Func<int, ITurnSender> Sender)[]
        {
            ("echo bot of the SDK, in memory", n => new BotSender(echo.Address, n, null)),
            ("bot endpoint, on disk", n => new BotSender(ours.Address, n, token.Bearer)),
            ("page, on disk", _ => new PageSender(ours.Address)),
        };
        foreach (var connections in (int[])[1, 64])
        {
            var figures = kinds.ToDictionary(k => k.Name, _ => new List<LoadFigures>());
            for (var round = 0; round <= Rounds; round++)
            {
                foreach (var (name, make) in kinds)
                {
                    var measured = await MeasureAsync(make, (round * 1000) + (connections * 10_000), connections, round == 0 ? WarmUp : Length);
                    if (round > 0)
                        figures[name].Add(measured);
                }
            }

            Print(connections, figures);
        }

        Console.WriteLine($"\nResident memory of EarHelp after this: {FigureTable.Of(ours.MegabytesInUse, "MB")}.");
        Directory.Delete(folder, recursive: true);
    }

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

    static void Print(int connections, Dictionary<string, List<LoadFigures>> figures)
    {
        var table = new FigureTable($"{connections} connection(s), medians of {Rounds} alternating rounds");
        var echo = Middle(figures.Values.First(), f => f.TurnsASecond);
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

    static string TargetOf(string name, int connections) => (name[..3], connections) switch
    {
        ("pag", 64) => "at least 2 times echo, p99 at most 20 ms",
        ("pag", 1) => "p99 at most 8 ms",
        ("bot", 64) => "at least 1 time echo",
        _ => "",
    };

    static double Middle(List<LoadFigures> rounds, Func<LoadFigures, double> of) => rounds.Select(of).Order().ElementAt(rounds.Count / 2);
}
