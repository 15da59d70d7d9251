using System.Text;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Storage.Tests;

public sealed class VisitStoreTests : IAsyncLifetime
{
    const string Canary = "R. Kanarienvogel";

    static readonly Visit After = new("after", "edition", Instant.FromUnixTimeMilliseconds(5_000), Canary, [new SeenFinding("hole", Ear.Left), new SeenFinding("dizzy", null)], "before");

    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;
    LiteTurnStore _store = null!;

    IVisitStore Visits => _store.Visits;

    public async Task InitializeAsync()
    {
        _store = LiteTurnStore.Open(_folder, new StoreOptions());
        foreach (var conversation in (string[])["before", "after", "other"])
            await _store.AppendAsync(SomeTurns.First(conversation, at: 1_000), [], default);
    }

    public async Task DisposeAsync()
    {
        await _store.DisposeAsync();
        Directory.Delete(_folder, true);
    }

    [Fact]
    public async Task Gives_a_visit_back_as_it_was_after_closing_too_and_keeps_the_first_one()
    {
        Assert.True(await Visits.PutAsync(After, default));
        Assert.True(await Visits.PutAsync(After with { By = "another" }, default));

        await _store.DisposeAsync();
        _store = LiteTurnStore.Open(_folder, new StoreOptions());

        var found = (await Visits.FindAsync("after", default))!;
        Assert.Equal(After.Findings.AsEnumerable(), found.Findings);
        Assert.Equal(After, found with { Findings = After.Findings });
        Assert.Single(await Visits.AllAsync(default));
        Assert.Null(await Visits.FindAsync("other", default));
    }

    [Fact]
    public async Task Keeps_nothing_for_a_conversation_that_is_not_there() =>
        Assert.False(await Visits.PutAsync(After with { Conversation = "erased" }, default));

    [Theory]
    [InlineData("before")]
    [InlineData("after")]
    public async Task Erasing_the_conversation_before_or_after_a_visit_erases_both_and_the_visit_from_every_file(string erased)
    {
        await Visits.PutAsync(After, default);
        Assert.True(FilesHold(Canary));

        Assert.True(await _store.EraseAsync(erased, default));

        Assert.Null(await Visits.FindAsync("after", default));
        Assert.Empty(await _store.LoadAsync("before", default));
        Assert.Empty(await _store.LoadAsync("after", default));
        Assert.Single(await _store.LoadAsync("other", default));
        Assert.False(FilesHold(Canary));
    }

    [Fact]
    public async Task An_unfinished_conversation_after_a_visit_stays_until_the_days_of_the_visit_are_over()
    {
        await Visits.PutAsync(After with { Before = null }, default);

        Assert.Equal(2, await _store.SweepUnfinishedAsync(2_000, default));
        Assert.Equal(0, await Visits.SweepVisitsAsync(5_000, default));
        Assert.Equal(1, await Visits.SweepVisitsAsync(5_001, default));

        Assert.Empty(await _store.LoadAsync("after", default));
        Assert.False(FilesHold(Canary));
    }

    bool FilesHold(string text) => Directory.EnumerateFiles(_folder, "*.db").Any(f =>
    {
        using var file = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var all = new byte[file.Length];
        file.ReadExactly(all);
        return all.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;
    });
}
