using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Conversations;

/// <summary>A conversation whose edition is neither served nor in the archive any more.</summary>
public sealed class EditionGoneTests : IAsyncLifetime
{
    RunningService _service = null!;
    Patient _patient = null!;
    PageRead _danger = null!;
    string _id = string.Empty;

    public async Task InitializeAsync()
    {
        _service = await RunningService.StartAsync(ownRoot: true, configure: ForgetfulArchive.Put);
        _patient = _service.NewPatient();
        _danger = await _patient.BeginAsync("my ear is dull");
        _id = await _service.ConversationOfAsync(_patient);
        var words = Path.Combine(_service.Root, "content", "en", "page-notices.md");
        await File.WriteAllTextAsync(words, (await File.ReadAllTextAsync(words)).Replace("This needs an answer.", "An answer is needed here.", StringComparison.Ordinal));
        await _service.StartAgainAsync();
        _patient = _service.Again(_patient);
    }

    public async Task DisposeAsync()
    {
        _patient.Dispose();
        await _service.DisposeAsync();
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/letter")]
    [InlineData("/plan")]
    [InlineData("/start-over")]
    public async Task Every_page_of_it_says_what_to_do(string address)
    {
        var page = await _patient.ReadAsync(address);

        Assert.Equal(503, (int)page.Status);
        Assert.Contains("Your conversation is safe", page.Text);
        Assert.Contains("In an emergency call 999", page.Text);
        Assert.Contains("Without hearing", page.Text);
    }

    [Fact]
    public async Task An_answer_is_told_to_be_not_saved_with_its_emergency_and_nothing_is_lost()
    {
        var before = await TurnsAsync();

        var page = await _patient.AnswerAsync(_danger, ("a:speech trouble", "yes"));

        Assert.Equal(503, (int)page.Status);
        NotSavedTests.AssertAlarmBeforeNotSaved(page);
        Assert.Equal(before, await TurnsAsync());
    }

    [Fact]
    public async Task Who_does_not_want_to_wait_begins_another()
    {
        var held = await _patient.ReadAsync("/letter");

        await _patient.PostAsync("/leave", held.FormTo("/leave"));
        var page = await _patient.BeginAsync();

        Assert.Equal("danger signs", page.Screen);
        Assert.NotEmpty(await TurnsAsync());
    }

    [Fact]
    public async Task A_replay_says_which_turns_cannot_be_decided_again()
    {
        var replayed = await _service.Services.GetRequiredService<TurnTaking>().ReplayAsync(_id, CancellationToken.None);

        Assert.Equal(replayed.Turns.Select(t => t.Number), replayed.Differing);
        Assert.All(replayed.Turns, t => Assert.Null(t.Again));
    }

    async Task<string[]> TurnsAsync()
    {
        var turns = await _service.Services.GetRequiredService<ITurnStore>().LoadAsync(_id, CancellationToken.None);
        return [.. turns.Select(t => t.Hash)];
    }

    /// <summary>An archive that keeps nothing, as after a restore of half a backup.</summary>
    sealed class ForgetfulArchive : IEditionArchive
    {
        public static void Put(IServiceCollection services) => services.AddSingleton<IEditionArchive, ForgetfulArchive>();

        public ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation) => ValueTask.CompletedTask;

        public ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation) => new((ReadOnlyMemory<byte>?)null);
    }
}
