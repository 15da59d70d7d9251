using System.Collections.Immutable;
using System.Globalization;
using Benchmarks.Figures;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage;
using EarHelp.Web.Security;

namespace Benchmarks.Serving;

/// <summary>What many kept conversations cost: the next turn, the start, the memory.</summary>
static class StoredReport
{
    const int Few = 1_000;
    const int ManyUnlessSaid = 1_000_000;
    const int Open = 100_000;
    const int TurnsEach = 3;
    const int Starts = 5;
    const int Writers = 256;
    const int OpeningConnections = 32;

    /// <summary>For so long nobody asks for anything before the memory of an idle service is read.</summary>
    static readonly TimeSpan Idle = TimeSpan.FromSeconds(5);

    /// <param name="among">Among how many conversations a turn is timed; null: a million.</param>
    public static async Task AddAsync(FigureTable table, string? among)
    {
        var many = among is null ? ManyUnlessSaid : int.Parse(among, CultureInfo.InvariantCulture);
        var root = Path.Combine(Places.Root, "artifacts", "stored");
        if (Directory.Exists(root))
            Directory.Delete(root, recursive: true);
        var real = await RealTurnsAsync(Path.Combine(root, "one"));
        await AddLatencyAsync(table, real, root, many);
        await AddStartAsync(table, real, root);
        await AddMemoryAsync(table);
        Directory.Delete(root, recursive: true);
    }

    static async Task AddLatencyAsync(FigureTable table, ImmutableArray<TurnRecord> real, string root, int count)
    {
        var (few, many) = (Path.Combine(root, "few"), Path.Combine(root, "many"));
        await FillAsync(few, real, Few);
        await FillAsync(many, real, count);
        using var small = await ServerProcess.EarHelpOnAsync(few);
        using var large = await ServerProcess.EarHelpOnAsync(many);
        var kinds = new Dictionary<string, Func<int, ITurnSender>> { ["few"] = _ => new PageSender(small.Address), ["many"] = _ => new PageSender(large.Address) };
        foreach (var connections in (int[])[1, 64])
        {
            var figures = await LoadReport.MeasureAsync(kinds, connections);
            double Figure(string name, Func<LoadFigures, double> of) => LoadReport.Middle(figures[name], of);
            string Both(Func<LoadFigures, double> of) => $"{FigureTable.Of(Figure("many", of), "ms")} against {FigureTable.Of(Figure("few", of), "ms")}";
            var times = Figure("many", f => f.Median) / Figure("few", f => f.Median);
            table.Add(
                $"page among {Of(count)} conversations against {Of(Few)}, {connections} connection(s)",
                $"p50 {Both(f => f.Median)}: {FigureTable.Of(times, "times")}; p99 {Both(f => f.OfHundred99)}",
                "at most 1.2 times",
                times <= 1.2);
        }

        table.Add($"size of the store with {Of(count)} conversations", FigureTable.Of(Directory.GetFiles(many).Sum(f => new FileInfo(f).Length) / 1_000_000.0, "MB"), "");
        table.Add($"memory, {Of(count)} kept conversations", FigureTable.Of(large.MegabytesInUse, "MB"), "");
    }

    static async Task AddStartAsync(FigureTable table, ImmutableArray<TurnRecord> real, string root)
    {
        var (many, few) = (Path.Combine(root, "start"), Path.Combine(root, "one"));
        await FillAsync(many, real, Open);
        var program = await Published.MakeAsync();
        var (among, alone) = (new Samples(), new Samples());
        for (var i = 0; i < Starts; i++)
        {
            foreach (var (folder, starts) in new[] { (few, alone), (many, among) })
            {
                using var server = await ServerProcess.PublishedOnAsync(program, folder);
                starts.Add(server.Started);
            }
        }

        table.Add(
            $"process start to first served page, as published, {Of(Open)} kept conversations, median of {Starts}",
            $"{FigureTable.Of(among.Median / 1000, "ms")}; with one kept conversation {FigureTable.Of(alone.Median / 1000, "ms")}",
            "under 1,500 ms",
            among.Median < 1_500_000);
    }

    /// <summary>Conversations that are begun and not ended, in the process that measures.</summary>
    public static async Task AddMemoryAsync(FigureTable table)
    {
        using var server = await ServerProcess.EarHelpAsync();
        var left = Open;
        await Task.WhenAll(Enumerable.Range(0, OpeningConnections).Select(_ => Task.Run(async () =>
        {
            using var page = new PageSender(server.Address);
            while (Interlocked.Decrement(ref left) >= 0)
            {
                page.Leave();
                await page.PrepareAsync();
                await page.SendAsync();
            }
        })));
        await Task.Delay(Idle);
        var megabytes = server.MegabytesInUse;
        table.Add($"memory, {Of(Open)} open conversations, idle", FigureTable.Of(megabytes, "MB"), "under 300 MB", megabytes < 300);
    }

    /// <summary>The first turns of one conversation that a browser held.</summary>
    static async Task<ImmutableArray<TurnRecord>> RealTurnsAsync(string folder)
    {
        using (var server = await ServerProcess.EarHelpOnAsync(Directory.CreateDirectory(folder).FullName))
        using (var page = new PageSender(server.Address))
        {
            for (var turn = 0; turn < TurnsEach; turn++)
            {
                await page.PrepareAsync();
                await page.SendAsync();
            }
        }

        await using var store = LiteTurnStore.Open(folder, new StoreOptions());
        var conversation = (await store.ConversationsAsync(CancellationToken.None)).Single();
        return [.. (await store.LoadAsync(conversation, CancellationToken.None)).Take(TurnsEach)];
    }

    /// <summary>The same conversation under many names, each with its own chain of hashes and its own key.</summary>
    static async Task FillAsync(string folder, ImmutableArray<TurnRecord> real, int conversations)
    {
        await using var store = LiteTurnStore.Open(folder, new StoreOptions());
        await Task.WhenAll(Enumerable.Range(0, Writers).Select(writer => Task.Run(async () =>
        {
            for (var number = writer; number < conversations; number += Writers)
                await AppendAsync(store, real, NameOf(number));
        })));
    }

    /// <summary>As the service names them: by the time at which they began.</summary>
    static string NameOf(int number) => Secret.NewConversation(DateTimeOffset.UnixEpoch.AddMinutes(number));

    static async Task AppendAsync(LiteTurnStore store, ImmutableArray<TurnRecord> real, string name)
    {
        var hash = string.Empty;
        foreach (var turn in real)
        {
            var record = TurnRecord.Chain(name, turn.Number, $"{name}-{turn.Number}", turn.AtUnixMilliseconds, turn.EditionId, turn.EngineVersion, turn.Finished, turn.Body.ToArray(), hash);
            await store.AppendAsync(record, turn.Number == 1 ? [new ConversationKey(name, OneTime: false, ExpiresUnixMilliseconds: null)] : [], CancellationToken.None);
            hash = record.Hash;
        }
    }

    static string Of(int count) => count.ToString("N0", CultureInfo.InvariantCulture);
}
