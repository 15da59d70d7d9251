using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using Microsoft.Extensions.Time.Testing;
using NodaTime;

namespace EarHelp.Clinic.Tests.Requests;

public sealed class TimeOfRequestTests
{
    static readonly Urgency Weeks = new("in two weeks", 4, Instant.FromUtc(2026, 12, 10, 12, 0), null);

    static readonly ContactDetails Jo = ContactDetails.Empty with { Number = "07700 900123" };

    static readonly VisitTime Ten = new(Instant.FromUtc(2026, 11, 30, 10, 0), Instant.FromUtc(2026, 11, 30, 10, 30));

    static readonly VisitTime HalfPast = new(Ten.End, Ten.End + Duration.FromMinutes(30));

    static readonly VisitTime Quarter = new(Ten.Start + Duration.FromMinutes(15), Ten.End + Duration.FromMinutes(15));

    static readonly Duration AQuarter = Duration.FromMinutes(15);

    readonly CollectingRequestStore _store = new();
    readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 11, 26, 12, 0, 0, TimeSpan.Zero));

    VisitRequests Requests => new(_store, _clock);

    [Fact]
    public async Task A_held_time_is_confirmed_and_keeps_how_to_reach_the_person()
    {
        await AskAsync("a");
        Assert.Equal(RequestPut.Kept, await Requests.HoldAsync("a", "hold", Ten, AQuarter, default));
        Assert.Null((await RequestAsync("a")).Booked);

        Assert.Equal(RequestPut.Kept, await Requests.ConfirmAsync("a", "confirm", default));

        var kept = await Requests.FindAsync("a", default);
        Assert.Equal((Ten, null, Jo), (kept!.Request.Booked, kept.Request.Held, kept.Contact));
    }

    [Fact]
    public async Task Nobody_else_gets_a_part_of_a_held_or_booked_time()
    {
        await AskAsync("a", "b");
        await Requests.HoldAsync("a", "hold", Ten, AQuarter, default);

        Assert.Equal(RequestPut.TimeTaken, await Requests.HoldAsync("b", "hold 1", Quarter, AQuarter, default));
        Assert.Equal(RequestPut.Kept, await Requests.HoldAsync("b", "hold 2", HalfPast, AQuarter, default));
        await Requests.ConfirmAsync("a", "confirm", default);
        _clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal(RequestPut.TimeTaken, await Requests.HoldAsync("b", "hold 3", Quarter, AQuarter, default));
    }

    [Fact]
    public async Task A_hold_ends_after_a_quarter_of_an_hour_to_the_moment()
    {
        await AskAsync("a", "b");
        await Requests.HoldAsync("a", "hold", Ten, AQuarter, default);

        _clock.Advance(TimeSpan.FromMinutes(15) - TimeSpan.FromMilliseconds(1));
        Assert.Equal(RequestPut.TimeTaken, await Requests.HoldAsync("b", "hold 1", Ten, AQuarter, default));
        _clock.Advance(TimeSpan.FromMilliseconds(1));
        Assert.Equal(RequestPut.Kept, await Requests.HoldAsync("b", "hold 2", Ten, AQuarter, default));
        Assert.Equal(RequestPut.TimeTaken, await Requests.ConfirmAsync("a", "confirm", default));
    }

    [Fact]
    public async Task Whoever_confirms_late_still_gets_the_time_if_nobody_took_it()
    {
        await AskAsync("a");
        await Requests.HoldAsync("a", "hold", Ten, AQuarter, default);
        _clock.Advance(TimeSpan.FromHours(2));

        Assert.Equal(RequestPut.Kept, await Requests.ConfirmAsync("a", "confirm", default));

        Assert.Equal(Ten, (await RequestAsync("a")).Booked);
    }

    [Fact]
    public async Task Moving_keeps_the_old_time_until_the_new_one_is_confirmed_and_then_gives_it_back()
    {
        await AskAsync("a", "b");
        await BookAsync("a", Ten);
        await Requests.HoldAsync("a", "move", HalfPast, AQuarter, default);
        Assert.Equal(RequestPut.TimeTaken, await Requests.HoldAsync("b", "hold 1", Ten, AQuarter, default));

        await Requests.ConfirmAsync("a", "confirm move", default);

        Assert.Equal(HalfPast, (await RequestAsync("a")).Booked);
        Assert.Equal(RequestPut.Kept, await Requests.HoldAsync("b", "hold 2", Ten, AQuarter, default));
    }

    [Fact]
    public async Task Cancelling_gives_the_time_back_and_the_request_stands()
    {
        await AskAsync("a", "b");
        await BookAsync("a", Ten);

        await Requests.CancelAsync("a", "cancel", default);

        Assert.Equal((RequestState.Waiting, null), ((await RequestAsync("a")).State, (await RequestAsync("a")).Booked));
        Assert.Equal(RequestPut.Kept, await Requests.HoldAsync("b", "hold", Ten, AQuarter, default));
    }

    [Fact]
    public async Task Taking_the_request_back_gives_the_time_back_and_no_time_can_be_held_after_it()
    {
        await AskAsync("a", "b");
        await BookAsync("a", Ten);

        await Requests.WithdrawAsync("a", "withdraw", default);
        await Requests.HoldAsync("a", "late hold", HalfPast, AQuarter, default);

        Assert.Null((await RequestAsync("a")).Held);
        Assert.Equal(RequestPut.Kept, await Requests.HoldAsync("b", "hold", Ten, AQuarter, default));
    }

    [Fact]
    public async Task Other_contact_details_leave_the_time_as_it_is()
    {
        await AskAsync("a");
        await BookAsync("a", Ten);

        await Requests.AskAsync("a", "change", Weeks, Jo with { Email = "jo@example.org" }, default);

        Assert.Equal(Ten, (await RequestAsync("a")).Booked);
    }

    async Task AskAsync(params string[] conversations)
    {
        foreach (var conversation in conversations)
            await Requests.AskAsync(conversation, "ask", Weeks, Jo, default);
    }

    async Task BookAsync(string conversation, VisitTime time)
    {
        await Requests.HoldAsync(conversation, "hold first", time, AQuarter, default);
        await Requests.ConfirmAsync(conversation, "confirm first", default);
    }

    async Task<VisitRequest> RequestAsync(string conversation) => (await Requests.FindAsync(conversation, default))!.Request;
}
