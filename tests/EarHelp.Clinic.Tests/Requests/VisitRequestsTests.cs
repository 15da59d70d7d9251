using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using Microsoft.Extensions.Time.Testing;
using NodaTime;

namespace EarHelp.Clinic.Tests.Requests;

public sealed class VisitRequestsTests
{
    static readonly Urgency Day = new("within a day", 2, Instant.FromUtc(2026, 11, 27, 12, 0), Instant.FromUtc(2026, 11, 27, 0, 0));

    static readonly Urgency Weeks = new("in two weeks", 4, Instant.FromUtc(2026, 12, 10, 12, 0), Instant.FromUtc(2026, 12, 3, 12, 0));

    static readonly ContactDetails Jo = ContactDetails.Empty with { Number = "07700 900123" };

    readonly CollectingRequestStore _store = new();
    readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 11, 26, 12, 0, 0, TimeSpan.Zero));

    VisitRequests Requests => new(_store, _clock);

    [Fact]
    public async Task A_form_sent_twice_is_one_request()
    {
        await Requests.AskAsync("c", "form", Day, Jo, default);
        await Requests.AskAsync("c", "form", Day, Jo with { Number = "07700 900999" }, default);

        Assert.Equal(1, _store.Puts);
        Assert.Equal(Jo, (await Requests.FindAsync("c", default))!.Contact);
    }

    [Fact]
    public async Task Asked_again_it_keeps_what_was_told_to_be_more_urgent()
    {
        await Requests.AskAsync("c", "one", Day, Jo, default);
        _clock.Advance(TimeSpan.FromHours(1));

        await Requests.AskAsync("c", "two", Weeks, Jo, default);

        var changed = (await Requests.FindAsync("c", default))!.Request;
        Assert.Equal((2, Day), (changed.Version, changed.Urgency));
        Assert.Equal(Duration.FromHours(1), changed.ChangedAt - changed.MadeAt);
    }

    [Fact]
    public async Task Taken_back_it_forgets_how_to_reach_the_person()
    {
        await Requests.AskAsync("c", "one", Day, Jo, default);

        await Requests.WithdrawAsync("c", "two", default);
        await Requests.WithdrawAsync("c", "three", default);

        var kept = await Requests.FindAsync("c", default);
        Assert.Equal((RequestState.Withdrawn, 2), (kept!.Request.State, kept.Request.Version));
        Assert.Null(kept.Contact);
    }

    [Fact]
    public async Task A_form_that_comes_again_after_others_changes_nothing_and_brings_back_nothing_that_was_taken_back()
    {
        await Requests.AskAsync("c", "one", Day, Jo, default);
        await Requests.WithdrawAsync("c", "two", default);

        await Requests.AskAsync("c", "one", Day, Jo, default);

        var kept = await Requests.FindAsync("c", default);
        Assert.Equal((RequestState.Withdrawn, 2), (kept!.Request.State, kept.Request.Version));
        Assert.Null(kept.Contact);
    }

    [Fact]
    public async Task A_change_that_came_second_is_decided_again_on_the_first()
    {
        await Requests.AskAsync("c", "one", Weeks, Jo, default);
        _store.BeforePut = () => Requests.AskAsync("c", "two", Day, Jo, default).AsTask().GetAwaiter().GetResult();

        await Requests.AskAsync("c", "three", Weeks, Jo, default);

        var third = (await Requests.FindAsync("c", default))!.Request;
        Assert.Equal((3, Day), (third.Version, third.Urgency));
    }

    [Fact]
    public async Task Nothing_is_kept_of_a_conversation_that_was_erased_meanwhile()
    {
        _store.IsConversationGone = true;

        Assert.Equal(RequestPut.Gone, await Requests.AskAsync("c", "one", Day, Jo, default));
        Assert.Null(await Requests.FindAsync("c", default));
    }

    [Fact]
    public async Task Taking_back_what_was_never_asked_changes_nothing()
    {
        await Requests.WithdrawAsync("c", "one", default);

        Assert.Equal(0, _store.Puts);
    }
}
