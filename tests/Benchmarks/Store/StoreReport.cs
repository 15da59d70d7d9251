using System.Diagnostics;
using System.Globalization;
using System.Text;
using Benchmarks.Figures;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage;

namespace Benchmarks.Store;

/// <summary>Durable turns a second of the store, beside a plain file that is appended to and synced, in the same run.</summary>
static class StoreReport
{
    const int Swept = 10_000;

    static readonly int[] Writers = [1, 16, 64];
    static readonly TimeSpan Length = TimeSpan.FromSeconds(3);

    public static async Task RunAsync()
    {
        var table = new FigureTable("appends, each on the disk before it is answered");
        foreach (var writers in Writers)
        {
            await using (var plain = new SyncedAppends(FreshFolder()))
                Add(table, $"plain append and sync, shared by {writers}", await WriteLoad.RunAsync(plain.AppendAsync, writers, Length), "the ceiling");
            await using var store = LiteTurnStore.Open(FreshFolder(), new StoreOptions());
            Add(table, $"the store, {writers} writers", await WriteLoad.RunAsync(Into(store), writers, Length), writers == 64 ? "over 20,000 a second" : "");
        }

        await AddFullStoreAsync(table);
        foreach (var kept in (int[])[0, 100_000])
            await AddSweepAsync(table, kept);
        table.Print(Console.Out);
        Directory.Delete(Root, recursive: true);
    }

    static Func<TurnOfLoad, ValueTask> Into(LiteTurnStore store) => async turn =>
        await store.AppendAsync(turn.Record, [], CancellationToken.None);

    /// <summary>The same load, and reading from the file, in a store that already holds many conversations.</summary>
    static async Task AddFullStoreAsync(FigureTable table)
    {
        foreach (var conversations in new[] { 1_000, 100_000 })
        {
            var folder = FreshFolder();
            await using (var filling = LiteTurnStore.Open(folder, new StoreOptions()))
                await WriteLoad.FillAsync(Into(filling), conversations);
            await using var store = LiteTurnStore.Open(folder, new StoreOptions());
            var among = conversations.ToString("N0", CultureInfo.InvariantCulture);
            Add(table, $"the store, 64 writers, among {among} conversations", await WriteLoad.RunAsync(Into(store), 64, Length), "at most 1.2 times slower");
            var cold = await WriteLoad.LoadSomeAsync(store, conversations);
            table.Add($"reading one conversation from the file, among {among}", Figures(cold), "at most 1.2 times slower");
        }
    }

    /// <summary>Ten thousand conversations whose time is over are removed while somebody writes: how long a turn waits at most.</summary>
    static async Task AddSweepAsync(FigureTable table, int kept)
    {
        await using var store = LiteTurnStore.Open(FreshFolder(), new StoreOptions());
        await WriteLoad.FillAsync(Into(store), kept);
        await Parallel.ForEachAsync(Enumerable.Range(0, Swept), async (i, cancellation) =>
        {
            var conversation = string.Create(CultureInfo.InvariantCulture, $"over-{i}");
            var record = TurnRecord.Chain(conversation, 1, "turn", 1, "edition", "1", finished: false, Encoding.UTF8.GetBytes(conversation), string.Empty);
            await store.AppendAsync(record, [new ConversationKey(conversation, OneTime: false, null)], cancellation);
        });
        var from = Stopwatch.GetTimestamp();
        var sweep = Task.Run(async () => await store.SweepUnfinishedAsync(2, CancellationToken.None));
        var waits = new Samples();
        for (var number = 0; !sweep.IsCompleted; number++)
        {
            var sent = Stopwatch.GetTimestamp();
            var conversation = string.Create(CultureInfo.InvariantCulture, $"meanwhile-{number}");
            await store.AppendAsync(TurnRecord.Chain(conversation, 1, "turn", 3, "edition", "1", finished: false, Encoding.UTF8.GetBytes(conversation), string.Empty), [], CancellationToken.None);
            waits.Add(Stopwatch.GetElapsedTime(sent));
        }

        var swept = await sweep;
        table.Add(
            string.Create(CultureInfo.InvariantCulture, $"a sweep of {swept:N0} conversations among {kept:N0} that stay"),
            string.Create(CultureInfo.InvariantCulture, $"{Stopwatch.GetElapsedTime(from).TotalSeconds:0.0} s, {waits.Count} turns taken meanwhile, the longest waited {waits.At(1) / 1000:N0} ms"),
            "");
    }

    static void Add(FigureTable table, string what, WriteLoad.Result result, string target) => table.Add(
        what,
        $"{FigureTable.Of(result.PerSecond, "/s")}, {Figures(result.Times)}, "
        + $"{FigureTable.Of(result.CpuMicroseconds, "µs of CPU")}, {FigureTable.Of(result.AllocatedBytes, "bytes")} each",
        target);

    static string Figures(Samples times) =>
        $"p50 {FigureTable.Of(times.Median, "µs")}, p99 {FigureTable.Of(times.At(0.99), "µs")}";

    /// <summary>On the disk of the repository: a temporary folder may be in memory.</summary>
    static string Root => Path.Combine(Places.Root, "artifacts", "store-load");

    static string FreshFolder()
    {
        if (Directory.Exists(Root))
            Directory.Delete(Root, recursive: true);
        return Directory.CreateDirectory(Root).FullName;
    }
}
