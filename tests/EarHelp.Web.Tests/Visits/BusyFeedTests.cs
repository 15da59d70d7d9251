using EarHelp.Web.Serving;
using EarHelp.Web.Visits;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using NodaTime;

namespace EarHelp.Web.Tests.Visits;

/// <summary>The clinic's calendar at an address, on a real server of the test's own.</summary>
public sealed class BusyFeedTests : IAsyncLifetime, IDisposable
{
    const string Calendar =
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Test//EN\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20261101T000000Z\r\n"
        + "DTSTART:20261130T100000Z\r\nDTEND:20261130T110000Z\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";

    static readonly Instant From = Instant.FromUtc(2026, 11, 27, 0, 0);

    readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 11, 26, 12, 0, 0, TimeSpan.Zero));
    readonly WebApplication _server;
    BusyFeed _feed = null!;
    string? _served = Calendar;
    int _fetched;

    public BusyFeedTests()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        _server = builder.Build();
        _server.Run(context =>
        {
            _fetched++;
            context.Response.StatusCode = _served is null ? StatusCodes.Status500InternalServerError : StatusCodes.Status200OK;
            return context.Response.WriteAsync(_served ?? string.Empty);
        });
    }

    public async Task InitializeAsync()
    {
        await _server.StartAsync();
        var settings = new ServiceSettings("", "", "", [], TimeSpan.Zero, 1, 1) { BusyCalendar = _server.Urls.First() + "/busy.ics" };
        _feed = new BusyFeed(settings, _clock, NullLogger<BusyFeed>.Instance);
    }

    public async Task DisposeAsync() => await _server.DisposeAsync();

    public void Dispose() => _feed.Dispose();

    [Fact]
    public async Task Is_fetched_once_in_five_minutes_however_many_ask()
    {
        Assert.Equal(1, await CountAsync());
        Assert.Equal(1, await CountAsync());
        Assert.Equal(1, _fetched);

        _clock.Advance(TimeSpan.FromMinutes(5));
        _served = Calendar.Replace("20261130T1", "20261201T1", StringComparison.Ordinal);
        Assert.Equal(1, await CountAsync());
        Assert.Equal(2, _fetched);
    }

    [Fact]
    public async Task Still_counts_for_an_hour_while_the_address_does_not_answer_and_then_nobody_can_tell()
    {
        await CountAsync();
        _served = null;

        _clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal(1, await CountAsync());
        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Null(await CountAsync());
        Assert.Equal(2, _fetched);

        _clock.Advance(TimeSpan.FromMinutes(1));
        _served = Calendar;
        Assert.Equal(1, await CountAsync());
    }

    [Fact]
    public async Task A_page_that_is_no_calendar_tells_nobody_anything()
    {
        _served = "<html>Please sign in.</html>";

        Assert.Null(await CountAsync());
    }

    async Task<int?> CountAsync() => (await _feed.BetweenAsync(From, From + Duration.FromDays(14), DateTimeZoneProviders.Tzdb["Europe/London"], default))?.Length;
}
