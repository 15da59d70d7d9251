using System.Diagnostics;
using Benchmarks.Figures;
using EarHelp.Storage;

namespace Benchmarks.Store;

/// <summary>Writers that each hold conversations of ten turns, one turn after the other, as fast as they are answered.</summary>
static class WriteLoad
{
    const int TurnsPerConversation = 10;
    const int FillingWriters = 256;
    const int FillBase = 1_000_000;
    const int ColdReads = 2_000;
    static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(1);

    static int _conversation;

    public sealed record Result(double PerSecond, Samples Times, double CpuMicroseconds, double AllocatedBytes);

    public static async Task<Result> RunAsync(Func<TurnOfLoad, ValueTask> append, int writers, TimeSpan length)
    {
        await LoadAsync(append, writers, WarmUp);
        var cpu = Process.GetCurrentProcess().TotalProcessorTime;
        var allocated = GC.GetTotalAllocatedBytes();
        var from = Stopwatch.GetTimestamp();
        var times = await LoadAsync(append, writers, length);
        var elapsed = Stopwatch.GetElapsedTime(from);
        return new Result(
            times.Count / elapsed.TotalSeconds,
            times,
            (Process.GetCurrentProcess().TotalProcessorTime - cpu).TotalMicroseconds / times.Count,
            (double)(GC.GetTotalAllocatedBytes() - allocated) / times.Count);
    }

    public static async Task FillAsync(Func<TurnOfLoad, ValueTask> append, int conversations) =>
        await Task.WhenAll(Enumerable.Range(0, FillingWriters).Select(writer => Task.Run(async () =>
        {
            for (var number = writer; number < conversations; number += FillingWriters)
                await append(TurnOfLoad.First(FillBase + number));
        })));

    /// <summary>Reads conversations that the store has not used lately.</summary>
    public static async Task<Samples> LoadSomeAsync(LiteTurnStore store, int conversations)
    {
        var times = new Samples();
        for (var read = 0; read < ColdReads; read++)
        {
            var name = TurnOfLoad.First(FillBase + (int)((long)read * 7_919 % conversations)).Record.Conversation;
            var from = Stopwatch.GetTimestamp();
            if ((await store.LoadAsync(name, CancellationToken.None)).IsEmpty)
                throw new InvalidOperationException($"{name} is not there.");
            times.Add(Stopwatch.GetElapsedTime(from));
        }

        return times;
    }

    static async Task<Samples> LoadAsync(Func<TurnOfLoad, ValueTask> append, int writers, TimeSpan length)
    {
        var from = Stopwatch.GetTimestamp();
        var all = await Task.WhenAll(Enumerable.Range(0, writers).Select(_ => Task.Run(async () =>
        {
            var times = new Samples();
            while (Stopwatch.GetElapsedTime(from) < length)
            {
                var turn = TurnOfLoad.First(Interlocked.Increment(ref _conversation));
                for (var number = 1; number <= TurnsPerConversation; number++)
                {
                    var asked = Stopwatch.GetTimestamp();
                    await append(turn);
                    times.Add(Stopwatch.GetElapsedTime(asked));
                    turn = turn.Next();
                }
            }

            return times;
        })));
        var together = new Samples();
        foreach (var times in all)
            together.Add(times);
        return together;
    }
}
