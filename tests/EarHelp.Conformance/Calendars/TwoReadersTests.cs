using System.Diagnostics;
using System.Text.Json;
using EarHelp.Clinic.Times;
using EarHelp.Conformance.Npm;
using EarHelp.Exchange.Calendars;
using NodaTime;

namespace EarHelp.Conformance.Calendars;

/// <summary>The patient's calendar file, read by two programs that others wrote: npm ical.js and npm node-ical.</summary>
public sealed class TwoReadersTests
{
    static readonly VisitFile Winter = new(
        "a1b2c3",
        3,
        "Appointment, \"early\"; a plan\\letter. Ünïcödé ☂ so that a line is folded inside of letters of two and of three bytes",
        "14 Tidewell Lane, Hallowmere; second door",
        new VisitTime(Instant.FromUtc(2026, 11, 30, 10, 15), Instant.FromUtc(2026, 11, 30, 10, 45)),
        Instant.FromUtc(2026, 11, 26, 12, 0));

    static readonly VisitFile Summer = Winter with
    {
        Time = new VisitTime(Instant.FromUtc(2027, 7, 1, 8, 0), Instant.FromUtc(2027, 7, 1, 8, 30)),
    };

    public static TheoryData<int> Files => [0, 1];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task Both_read_what_was_written(int file)
    {
        var written = file == 0 ? Winter : Summer;

        var read = await ReadAsync(written.Write());

        Assert.Equal(2, read.Count);
        Assert.All(read, r => Assert.Equal(
            (written.Identifier + "@earhelp.invalid", written.Title, written.Place, written.Version, written.Time.Start, written.Time.End, written.WrittenAt),
            (Text(r, "uid"), Text(r, "summary"), Text(r, "place"), r.GetProperty("sequence").GetInt32(), At(r, "start"), At(r, "end"), At(r, "stamp"))));
    }

    static string Text(JsonElement read, string name) => read.GetProperty(name).GetString()!;

    static Instant At(JsonElement read, string name) => Instant.FromDateTimeOffset(read.GetProperty(name).GetDateTimeOffset());

    static async Task<List<JsonElement>> ReadAsync(string calendar)
    {
        var start = new ProcessStartInfo(NpmPackages.Node) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Calendars", "readers.mjs"));
        start.ArgumentList.Add(new Uri(NpmPackages.PathOf("ical.js", Path.Combine("dist", "ical.js"))).AbsoluteUri);
        start.ArgumentList.Add(new Uri(NpmPackages.PathOf("node-ical", "node-ical.js")).AbsoluteUri);
        using var node = Process.Start(start)!;
        await node.StandardInput.WriteAsync(calendar);
        node.StandardInput.Close();
        var lines = await node.StandardOutput.ReadToEndAsync();
        await node.WaitForExitAsync();
        Assert.Equal(0, node.ExitCode);
        return [.. lines.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonDocument.Parse(l).RootElement)];
    }
}
