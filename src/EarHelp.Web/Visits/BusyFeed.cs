using System.Collections.Immutable;
using EarHelp.Clinic.Times;
using EarHelp.Exchange.Calendars;
using EarHelp.Web.Serving;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>
/// The clinic's own calendar, as a file or an address that the operator names. While it cannot be read whole, nobody knows which times
/// are free, and none is offered.
/// </summary>
public sealed partial class BusyFeed(ServiceSettings settings, TimeProvider clock, ILogger<BusyFeed> log) : IBusyTimes, IDisposable
{
    const int LargestBytes = 8 * 1024 * 1024;

    /// <summary>What was fetched counts for so long before it is fetched again.</summary>
    static readonly TimeSpan FetchedFor = TimeSpan.FromMinutes(5);

    /// <summary>An address that did not answer is left alone for so long: nobody waits for it meanwhile.</summary>
    static readonly TimeSpan RetriedAfter = TimeSpan.FromMinutes(1);

    /// <summary>What was fetched still counts for so long while the address does not answer.</summary>
    static readonly TimeSpan OldestFetched = TimeSpan.FromHours(1);

    /// <summary>Read once for so much more than is asked, so that the next person's question is answered at once.</summary>
    static readonly Duration ReadAhead = Duration.FromDays(2);

    readonly SemaphoreSlim _gate = new(1, 1);
    readonly HttpClient _client = new() { Timeout = TimeSpan.FromSeconds(10), MaxResponseContentBufferSize = LargestBytes };
    (string Text, DateTimeOffset At)? _fetched;
    DateTimeOffset _nextFetch;
    BusySpan? _read;

    public async ValueTask<ImmutableArray<VisitTime>?> BetweenAsync(Instant from, Instant until, DateTimeZone zone, CancellationToken cancellation)
    {
        if (settings.BusyCalendar is not { } source)
            return [];
        await _gate.WaitAsync(cancellation);
        try
        {
            if (await TextAsync(source, cancellation) is not { } text)
                return null;
            if (_read is not { } read || !ReferenceEquals(read.Text, text) || from < read.From || read.Until < until)
                _read = read = new BusySpan(text, from, until + ReadAhead, BusyCalendar.Read(text, from, until + ReadAhead, zone));
            return [.. read.Busy.Where(b => b.Start < until && from < b.End)];
        }
        catch (Exception fault) when (fault is CalendarUnreadableException or IOException or UnauthorizedAccessException)
        {
            LogUnreadable(log, fault is CalendarUnreadableException ? fault.Message : fault.GetType().Name);
            return null;
        }
        finally
        {
            _gate.Release();
        }
    }

    public void Dispose()
    {
        _client.Dispose();
        _gate.Dispose();
    }

    /// <summary>The same text is the same object, as long as it has not changed.</summary>
    async Task<string?> TextAsync(string source, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow();
        if (!Uri.TryCreate(source, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
            Keep(await File.ReadAllTextAsync(source, cancellation), now);
        else if (now >= _nextFetch)
            await FetchAsync(address, now, cancellation);
        return _fetched is { } last && now - last.At <= OldestFetched ? last.Text : null;
    }

    async Task FetchAsync(Uri address, DateTimeOffset now, CancellationToken cancellation)
    {
        try
        {
            Keep(await _client.GetStringAsync(address, cancellation), now);
            _nextFetch = now + FetchedFor;
        }
        catch (Exception fault) when (fault is HttpRequestException or TaskCanceledException && !cancellation.IsCancellationRequested)
        {
            _nextFetch = now + RetriedAfter;
            LogUnreadable(log, fault.GetType().Name);
        }
    }

    void Keep(string text, DateTimeOffset at) => _fetched = (_fetched?.Text == text ? _fetched.Value.Text : text, at);

    [LoggerMessage(Level = LogLevel.Error, Message = "The calendar of busy times cannot be read; without it no times are offered. {Reason}")]
    static partial void LogUnreadable(ILogger log, string reason);

    sealed record BusySpan(string Text, Instant From, Instant Until, ImmutableArray<VisitTime> Busy);
}
