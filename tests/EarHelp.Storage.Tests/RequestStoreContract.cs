using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Storage.Tests.Places;
using NodaTime;

namespace EarHelp.Storage.Tests;

public abstract class RequestStoreContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    const string Canary = "kanarienvogel@example.org";

    static readonly Urgency Day = new("within a day", 2, Instant.FromUtc(2026, 11, 27, 12, 0), null);

    static readonly ContactDetails Jo =
        new("Jo", "Mo", ReachBy.Email, "07700 900123", Canary, new VisitNeeds(true, "Polish", true, true, true, true, true, "not on Mondays"));

    IRequestStore Requests => Opened.Requests;

    public override async Task InitializeAsync()
    {
        await base.InitializeAsync();
        await Opened.AppendAsync(SomeTurns.First("c", at: 1_000, finished: true), [], default);
    }

    [Fact]
    public async Task Gives_a_request_and_its_contact_back_as_they_were_after_closing_too()
    {
        var request = New("c");
        Assert.Equal(RequestPut.Kept, await Requests.PutAsync(request, Jo, default));

        await OpenAgainAsync();

        Assert.Equal(new KeptRequest(request, Jo), await Requests.FindAsync("c", default));
        Assert.Equal([request], (await Requests.WaitingAsync(default)).Select(k => k.Request));
        Assert.Null(await Requests.FindAsync("nobody", default));
    }

    [Fact]
    public async Task Of_fifty_changes_of_one_version_one_is_kept()
    {
        var first = New("c");
        await Requests.PutAsync(first, Jo, default);

        var put = await Task.WhenAll(Enumerable.Range(0, 50)
            .Select(i => Task.Run(async () => await Requests.PutAsync(first.AskedAgain($"form {i}", Day, first.MadeAt), Jo, default))));

        Assert.Single(put, p => p == RequestPut.Kept);
        Assert.Equal(49, put.Count(p => p == RequestPut.Stale));
    }

    [Fact]
    public async Task Keeps_nothing_for_a_conversation_that_is_not_there()
    {
        Assert.Equal(RequestPut.Gone, await Requests.PutAsync(New("erased"), Jo, default));
        Assert.Null(await Requests.FindAsync("erased", default));
    }

    [Fact]
    public async Task A_request_taken_back_waits_no_more_and_its_contact_is_nowhere()
    {
        var request = New("c");
        await Requests.PutAsync(request, Jo, default);
        Assert.True(await Place.HoldsAsync(Canary));

        await Requests.PutAsync(request.Withdrawn("form 2", request.MadeAt), null, default);

        Assert.Empty(await Requests.WaitingAsync(default));
        Assert.Null((await Requests.FindAsync("c", default))!.Contact);
        Assert.False(await Place.HoldsAsync(Canary));
        Assert.Single(await Opened.LoadAsync("c", default));
    }

    [Fact]
    public async Task Erasing_a_conversation_erases_its_request_and_its_contact_everywhere()
    {
        await Requests.PutAsync(New("c"), Jo, default);

        Assert.True(await Opened.EraseAsync("c", default));

        Assert.Null(await Requests.FindAsync("c", default));
        Assert.False(await Place.HoldsAsync(Canary));
    }

    [Fact]
    public async Task A_sweep_takes_requests_that_changed_before_and_leaves_the_conversation()
    {
        await Requests.PutAsync(New("c"), Jo, default);

        Assert.Equal(0, await Requests.SweepRequestsAsync(1_000, default));
        Assert.Equal(1, await Requests.SweepRequestsAsync(1_001, default));

        Assert.Null(await Requests.FindAsync("c", default));
        Assert.False(await Place.HoldsAsync(Canary));
        Assert.Single(await Opened.LoadAsync("c", default));
    }

    [Fact]
    public async Task An_unfinished_conversation_stays_as_long_as_its_request()
    {
        await Opened.AppendAsync(SomeTurns.First("unfinished", at: 1_000), [], default);
        await Requests.PutAsync(New("unfinished"), Jo, default);

        Assert.Equal(0, await Opened.SweepUnfinishedAsync(2_000, default));
        await Requests.SweepRequestsAsync(2_000, default);
        Assert.Equal(1, await Opened.SweepUnfinishedAsync(2_000, default));
    }

    [Fact]
    public async Task Of_sixty_people_at_once_who_want_times_that_overlap_none_share_a_moment()
    {
        var now = Instant.FromUtc(2026, 11, 26, 12, 0);
        var ten = now + Duration.FromHours(22);
        var people = Enumerable.Range(0, 60).Select(i => $"p{i}").ToArray();
        foreach (var person in people)
        {
            await Opened.AppendAsync(SomeTurns.First(person, at: 1_000, finished: true), [], default);
            await Requests.PutAsync(New(person), Jo, default);
        }

        // Half of them want ten o'clock, the others a time within the same hour.
        var put = await Task.WhenAll(people.Select((person, i) => Task.Run(async () =>
        {
            var start = i % 2 == 0 ? ten : ten + Duration.FromMinutes(i % 60);
            var holding = New(person).Holding(new VisitTime(start, start + Duration.FromMinutes(30)), now + Duration.FromMinutes(15), "hold", now);
            return await Requests.PutAsync(holding, Jo, default);
        })));

        var taken = await Requests.TakenAsync(now, "nobody", default);
        Assert.Equal(put.Count(p => p == RequestPut.Kept), taken.Length);
        Assert.InRange(taken.Length, 1, 3);
        Assert.All(taken, t => Assert.Single(taken, o => o.Overlaps(t)));
        Assert.Equal(60 - taken.Length, put.Count(p => p == RequestPut.TimeTaken));
    }

    [Fact]
    public async Task Of_forty_people_at_once_one_comes_to_each_clinician_and_one_into_each_room()
    {
        var now = Instant.FromUtc(2026, 11, 26, 12, 0);
        var ten = new VisitTime(now + Duration.FromHours(22), now + Duration.FromHours(23));
        VisitTime[] wanted = [ten with { By = "Adair", Room = "1" }, ten with { By = "Quill", Room = "2" }, ten with { By = "Adair", Room = "2" }, ten with { By = "Moss", Room = "1" }];
        var people = Enumerable.Range(0, 40).Select(i => $"p{i}").ToArray();
        foreach (var person in people)
        {
            await Opened.AppendAsync(SomeTurns.First(person, at: 1_000, finished: true), [], default);
            await Requests.PutAsync(New(person), Jo, default);
        }

        var put = await Task.WhenAll(people.Select((person, i) => Task.Run(async () =>
            await Requests.PutAsync(New(person).Holding(wanted[i % wanted.Length], now + Duration.FromMinutes(15), "hold", now), Jo, default))));

        var taken = await Requests.TakenAsync(now, "nobody", default);
        Assert.Equal(put.Count(p => p == RequestPut.Kept), taken.Length);
        Assert.InRange(taken.Length, 1, 2);
        Assert.Equal(taken.Length, taken.Select(t => t.By).Distinct().Count());
        Assert.Equal(taken.Length, taken.Select(t => t.Room).Distinct().Count());
    }

    [Fact]
    public async Task Two_clinicians_in_two_rooms_see_two_people_at_the_same_time()
    {
        var now = Instant.FromUtc(2026, 11, 26, 12, 0);
        var ten = new VisitTime(now + Duration.FromHours(22), now + Duration.FromHours(23));
        async Task<RequestPut> TakeAsync(string person, string? by, string? room)
        {
            await Opened.AppendAsync(SomeTurns.First(person, at: 1_000, finished: true), [], default);
            await Requests.PutAsync(New(person), Jo, default);
            return await Requests.PutAsync(New(person).Holding(ten with { By = by, Room = room }, now + Duration.FromMinutes(15), "hold", now), Jo, default);
        }

        Assert.Equal(RequestPut.Kept, await TakeAsync("first", "Adair", "1"));
        Assert.Equal(RequestPut.Kept, await TakeAsync("second", "Quill", "2"));
        Assert.Equal(RequestPut.TimeTaken, await TakeAsync("third", "Adair", "3"));
        Assert.Equal(RequestPut.TimeTaken, await TakeAsync("fourth", "Moss", "2"));
        Assert.Equal(RequestPut.TimeTaken, await TakeAsync("fifth", null, null));
        Assert.Equal(["Adair", "Quill"], (await Requests.TakenAsync(now, "nobody", default)).Select(t => t.By).Order());
    }

    [Fact]
    public async Task A_held_and_a_booked_time_are_there_after_closing_and_opening_again()
    {
        var now = Instant.FromUtc(2026, 11, 26, 12, 0);
        var time = new VisitTime(now + Duration.FromHours(22), now + Duration.FromHours(23));
        var held = New("c").Holding(time, now + Duration.FromMinutes(15), "hold", now);
        await Requests.PutAsync(New("c"), Jo, default);
        await Requests.PutAsync(held, Jo, default);
        await Requests.PutAsync(held.Confirmed("confirm", now), Jo, default);

        await OpenAgainAsync();

        Assert.Equal([time], (await Requests.TakenAsync(now, "nobody", default)).ToArray());
        Assert.Empty(await Requests.TakenAsync(now, "c", default));
        Assert.Equal(time, (await Requests.FindAsync("c", default))!.Request.Booked);
    }

    static VisitRequest New(string conversation) => VisitRequest.New(conversation, "form 1", Day, Instant.FromUnixTimeMilliseconds(1_000));

    public sealed class InLiteDb() : RequestStoreContract(LiteAsync);

    public sealed class InPostgres() : RequestStoreContract(PostgresAsync);
}
