using System.Diagnostics;
using Benchmarks.Figures;

namespace Benchmarks.Serving;

/// <summary>Connections that send turns as fast as they are answered, for a while.</summary>
static class Load
{
    public static async Task<LoadFigures> RunAsync(IReadOnlyList<ITurnSender> senders, TimeSpan length)
    {
        var all = new Samples();
        var from = Stopwatch.GetTimestamp();
        var each = await Task.WhenAll(senders.Select(s => Task.Run(() => SendAsync(s, from, length))));
        var elapsed = Stopwatch.GetElapsedTime(from);
        foreach (var samples in each)
            all.Add(samples);
        return new LoadFigures(all.Count / elapsed.TotalSeconds, all.Median / 1000, all.At(0.99) / 1000);
    }

    static async Task<Samples> SendAsync(ITurnSender sender, long from, TimeSpan length)
    {
        var samples = new Samples();
        while (Stopwatch.GetElapsedTime(from) < length)
        {
            await sender.PrepareAsync();
            var sent = Stopwatch.GetTimestamp();
            await sender.SendAsync();
            samples.Add(Stopwatch.GetElapsedTime(sent));
        }

        return samples;
    }
}

/// <param name="Median">Unit: milliseconds; so is <paramref name="OfHundred99"/>.</param>
sealed record LoadFigures(double TurnsASecond, double Median, double OfHundred99);
