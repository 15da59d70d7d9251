using EarHelp.Clinic.Callers;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Tests.Places;
using NodaTime;

namespace EarHelp.Storage.Tests;

/// <summary>Closings at once, incidents, callers, and the keys of staff's cookies.</summary>
public abstract class DeskRecordsContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    const string Canary = "01632 960177";

    static readonly Instant Nine = Instant.FromUtc(2026, 11, 26, 9, 0);
    static readonly Caller Held = new("c", "jo", Nine, Canary, null);
    static readonly Incident Reported = new("i", Nine, "jo", "c", "edition", ["TR-1", "TR-2"], "Told too late: " + Canary);

    [Fact]
    public async Task A_closing_and_its_lifting_outlive_an_erasure_and_a_restart()
    {
        var first = new KeptClosing(Nine, new LocalDate(2026, 11, 30), null);
        var second = first with { SetAt = first.SetAt + Duration.FromDays(30) };
        await Opened.Closings.PutAsync(second, default);
        await Opened.Closings.PutAsync(first, default);
        await Opened.Closings.PutAsync(first with { LiftedAt = first.SetAt + Duration.FromHours(1) }, default);
        await Opened.AppendAsync(SomeTurns.First("c"), [], default);
        await Opened.EraseAsync("c", default);

        await OpenAgainAsync();

        Assert.Equal([first with { LiftedAt = first.SetAt + Duration.FromHours(1) }, second], (await Opened.Closings.AllAsync(default)).AsEnumerable());
    }

    [Fact]
    public async Task A_caller_is_kept_in_the_place_of_the_one_before_and_outlives_a_restart()
    {
        await Opened.AppendAsync(SomeTurns.First("c"), [], default);
        await Opened.AppendAsync(SomeTurns.First("later"), [], default);
        Assert.True(await Opened.Callers.PutAsync(Held, default));
        Assert.True(await Opened.Callers.PutAsync(Held with { FollowedUpBy = "mo" }, default));
        Assert.True(await Opened.Callers.PutAsync(Held with { Conversation = "later", At = Nine + Duration.FromHours(1), Number = "" }, default));

        await OpenAgainAsync();

        Assert.Equal(Held with { FollowedUpBy = "mo" }, await Opened.Callers.FindAsync("c", default));
        Assert.Equal(["later", "c"], (await Opened.Callers.AllAsync(default)).Select(c => c.Conversation));
        Assert.Null(await Opened.Callers.FindAsync("nobody", default));
    }

    [Fact]
    public async Task An_incident_added_twice_is_one_and_the_newest_stands_first()
    {
        await Opened.AppendAsync(SomeTurns.First("c"), [], default);
        Assert.True(await Opened.Incidents.AddAsync(Reported, default));
        Assert.True(await Opened.Incidents.AddAsync(Reported with { Words = "another" }, default));
        Assert.True(await Opened.Incidents.AddAsync(Reported with { Id = "later", At = Nine + Duration.FromHours(1) }, default));

        await OpenAgainAsync();

        var all = await Opened.Incidents.AllAsync(default);
        Assert.Equal(["later", "i"], all.Select(i => i.Id));
        Assert.Equal(Reported.Rules.AsEnumerable(), all[1].Rules);
        Assert.Equal(Reported, all[1] with { Rules = Reported.Rules });
    }

    [Fact]
    public async Task A_sealing_key_is_kept_once_and_outlives_a_restart()
    {
        await Opened.SealingKeys.AddAsync(new SealingKey("key-2", "<key id=\"2\"/>"), default);
        await Opened.SealingKeys.AddAsync(new SealingKey("key-1", "<key id=\"1\"/>"), default);
        await Opened.SealingKeys.AddAsync(new SealingKey("key-1", "<another/>"), default);

        await OpenAgainAsync();

        Assert.Equal([new SealingKey("key-1", "<key id=\"1\"/>"), new SealingKey("key-2", "<key id=\"2\"/>")], (await Opened.SealingKeys.AllAsync(default)).AsEnumerable());
    }

    [Fact]
    public async Task Nothing_is_kept_for_a_conversation_that_is_not_there()
    {
        Assert.False(await Opened.Callers.PutAsync(Held, default));
        Assert.False(await Opened.Incidents.AddAsync(Reported, default));
        Assert.Empty(await Opened.Callers.AllAsync(default));
        Assert.Empty(await Opened.Incidents.AllAsync(default));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Erasing_or_sweeping_a_conversation_takes_its_caller_and_its_incidents_everywhere(bool isSwept)
    {
        await Opened.AppendAsync(SomeTurns.First("c", at: 1_000), [], default);
        await Opened.Callers.PutAsync(Held, default);
        await Opened.Incidents.AddAsync(Reported, default);
        Assert.True(await Place.HoldsAsync(Canary));

        Assert.True(isSwept ? await Opened.SweepUnfinishedAsync(2_000, default) == 1 : await Opened.EraseAsync("c", default));

        Assert.Empty(await Opened.Callers.AllAsync(default));
        Assert.Empty(await Opened.Incidents.AllAsync(default));
        Assert.False(await Place.HoldsAsync(Canary));
    }

    public sealed class InLiteDb() : DeskRecordsContract(LiteAsync);

    public sealed class InPostgres() : DeskRecordsContract(PostgresAsync);
}
