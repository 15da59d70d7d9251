using System.Diagnostics;

namespace Benchmarks.Figures;

/// <summary>Many timings of one thing.</summary>
sealed class Samples
{
    readonly List<double> _microseconds = [];

    public int Count => _microseconds.Count;

    public double First => _microseconds[0];

    public double Median => At(0.5);

    public double Worst => _microseconds.Max();

    public void Add(TimeSpan elapsed) => _microseconds.Add(elapsed.TotalMicroseconds);

    public void Add(Samples other) => _microseconds.AddRange(other._microseconds);

    /// <param name="part">From 0 to 1: 0.99 is the time that 99 of 100 do not exceed.</param>
    public double At(double part)
    {
        var sorted = _microseconds.Order().ToList();
        return sorted[Math.Min(sorted.Count - 1, (int)(sorted.Count * part))];
    }

    public void Time(Action action)
    {
        var from = Stopwatch.GetTimestamp();
        action();
        Add(Stopwatch.GetElapsedTime(from));
    }
}
