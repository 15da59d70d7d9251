using System.Globalization;

namespace EarHelp.Web.Tests.Faults;

/// <summary>
/// The clock of a real process, moved while it runs: libfaketime of Debian's package stands between the process and the system's clock and
/// reads the difference from a file. What only measures (the monotonic clock) is left alone, as it is when a machine's clock is set.
/// </summary>
sealed class MovedTime : IDisposable
{
    readonly string _file = Path.GetTempFileName();

    public MovedTime() => Set(TimeSpan.Zero);

    /// <summary>How far the process is ahead of the machine.</summary>
    public TimeSpan Ahead { get; private set; }

    public DateTimeOffset Now => TimeProvider.System.GetUtcNow() + Ahead;

    /// <summary>To ten in the morning of this day (UTC), when the clinic may write to people.</summary>
    public static TimeSpan ToTen()
    {
        var now = TimeProvider.System.GetUtcNow();
        return TimeSpan.FromHours(10) - now.TimeOfDay;
    }

    /// <summary>In force within a second.</summary>
    public void Set(TimeSpan ahead)
    {
        Ahead = ahead;
        var next = _file + ".next";
        File.WriteAllText(next, ahead.TotalSeconds.ToString("+0;-0;+0", CultureInfo.InvariantCulture));
        File.Move(next, _file, overwrite: true);
    }

    /// <summary>What the process must find around it.</summary>
    public IEnumerable<KeyValuePair<string, string?>> Environment =>
    [
        new("LD_PRELOAD", Library()), new("FAKETIME_TIMESTAMP_FILE", _file), new("FAKETIME_CACHE_DURATION", "1"), new("FAKETIME_DONT_FAKE_MONOTONIC", "1"),
    ];

    public void Dispose() => File.Delete(_file);

    /// <summary>Removes what the library shares in memory for a process that was killed.</summary>
    public static void Forget(int processId)
    {
        foreach (var file in Directory.EnumerateFiles("/dev/shm", string.Create(CultureInfo.InvariantCulture, $"*faketime_*_{processId}")))
            File.Delete(file);
    }

    static string Library() =>
        Directory.EnumerateDirectories("/usr/lib").Select(d => Path.Combine(d, "faketime", "libfaketimeMT.so.1")).FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException("libfaketime is not there: apt-get install libfaketime");
}
