using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Storage.Tests.Places;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Storage.Tests;

public abstract class VisitStoreContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    const string Canary = "R. Kanarienvogel";

    static readonly Visit After = new("after", "edition", Instant.FromUnixTimeMilliseconds(5_000), Canary, [new SeenFinding("hole", Ear.Left), new SeenFinding("dizzy", null)], "before");

    IVisitStore Visits => Opened.Visits;

    public override async Task InitializeAsync()
    {
        await base.InitializeAsync();
        foreach (var conversation in (string[])["before", "after", "other"])
            await Opened.AppendAsync(SomeTurns.First(conversation, at: 1_000), [], default);
    }

    [Fact]
    public async Task Gives_a_visit_back_as_it_was_after_closing_too_and_keeps_the_first_one()
    {
        Assert.True(await Visits.PutAsync(After, default));
        Assert.True(await Visits.PutAsync(After with { By = "another" }, default));

        await OpenAgainAsync();

        var found = (await Visits.FindAsync("after", default))!;
        Assert.Equal(After.Findings.AsEnumerable(), found.Findings);
        Assert.Equal(After, found with { Findings = After.Findings });
        Assert.Single(await Visits.AllAsync(default));
        Assert.Null(await Visits.FindAsync("other", default));
    }

    [Fact]
    public async Task Keeps_the_next_version_with_those_before_it_once_and_only_after_the_last()
    {
        var second = After.Corrected("edition", After.At, "K. Ness", [new SeenFinding("suction", Ear.Right)], new Correction(Instant.FromUnixTimeMilliseconds(6_000), "the other ear"));
        Assert.False(await Visits.CorrectAsync(second, default));
        await Visits.PutAsync(After, default);

        Assert.True(await Visits.CorrectAsync(second, default));
        Assert.True(await Visits.CorrectAsync(second, default));
        Assert.False(await Visits.CorrectAsync(second with { By = "another" }, default));
        await OpenAgainAsync();

        var found = (await Visits.FindAsync("after", default))!;
        Assert.Equal((2, "K. Ness", second.Correction), (found.Version, found.By, found.Correction));
        Assert.Equal(After.Findings.AsEnumerable(), Assert.Single(found.Earlier).Findings);
        Assert.Equal((Canary, 1), (found.Earlier[0].By, found.Earlier[0].Version));
    }

    [Fact]
    public async Task Of_corrections_at_the_same_moment_one_is_kept()
    {
        await Visits.PutAsync(After, default);

        var kept = await Task.WhenAll(Enumerable.Range(0, 8).Select(async i =>
            await Visits.CorrectAsync(After.Corrected("edition", After.At, $"clinician {i}", [], new Correction(After.At, "")), default)));

        Assert.Single(kept, k => k);
        Assert.Equal(2, (await Visits.FindAsync("after", default))!.Version);
    }

    [Fact]
    public async Task A_corrected_time_is_what_the_days_count_from()
    {
        await Visits.PutAsync(After with { Before = null }, default);
        await Visits.CorrectAsync((After with { Before = null }).Corrected("edition", Instant.FromUnixTimeMilliseconds(9_000), Canary, [], new Correction(After.At, "")), default);

        Assert.Equal(0, await Visits.SweepVisitsAsync(9_000, default));
        Assert.Equal(1, await Visits.SweepVisitsAsync(9_001, default));
        Assert.False(await Place.HoldsAsync(Canary));
    }

    [Fact]
    public async Task Keeps_nothing_for_a_conversation_that_is_not_there() =>
        Assert.False(await Visits.PutAsync(After with { Conversation = "erased" }, default));

    [Theory]
    [InlineData("before")]
    [InlineData("after")]
    public async Task Erasing_the_conversation_before_or_after_a_visit_erases_both_and_the_visit_everywhere(string erased)
    {
        await Visits.PutAsync(After with { By = "jo" }, default);
        await Visits.CorrectAsync((After with { By = "jo" }).Corrected("edition", After.At, "jo", [], new Correction(After.At, Canary)), default);
        Assert.True(await Place.HoldsAsync(Canary));

        Assert.True(await Opened.EraseAsync(erased, default));

        Assert.Null(await Visits.FindAsync("after", default));
        Assert.Empty(await Opened.LoadAsync("before", default));
        Assert.Empty(await Opened.LoadAsync("after", default));
        Assert.Single(await Opened.LoadAsync("other", default));
        Assert.False(await Place.HoldsAsync(Canary));
    }

    [Fact]
    public async Task An_unfinished_conversation_after_a_visit_stays_until_the_days_of_the_visit_are_over()
    {
        await Visits.PutAsync(After with { Before = null }, default);

        Assert.Equal(2, await Opened.SweepUnfinishedAsync(2_000, default));
        Assert.Equal(0, await Visits.SweepVisitsAsync(5_000, default));
        Assert.Equal(1, await Visits.SweepVisitsAsync(5_001, default));

        Assert.Empty(await Opened.LoadAsync("after", default));
        Assert.False(await Place.HoldsAsync(Canary));
    }

    public sealed class InLiteDb() : VisitStoreContract(LiteAsync);

    public sealed class InPostgres() : VisitStoreContract(PostgresAsync);
}
