using System.Text;
using EarHelp.Conversation.Keeping;
using Xunit.Abstractions;

namespace EarHelp.Storage.Tests.PowerLoss;

/// <summary>Power lost at every change of the files of a run with group commits, checkpoints and a conversation that is erased while others go on.</summary>
public sealed class PowerLossTests(ITestOutputHelper output) : IAsyncLifetime
{
    /// <summary>
    /// Ways in which the disk may stand at one cut: which of the unsynced changes, and which sectors of the last write, are on it. One in the
    /// ordinary run, more where the variable says so (tests/faults sets it).
    /// </summary>
    static readonly int Layouts = Environment.GetEnvironmentVariable("EARHELP_FAULTS") == "long" ? 8 : 1;

    const string Erased = "erased";
    const string Secret = "kanarienvogel";

    static readonly string[] Stay = ["a", "b", "c"];

    /// <summary>In memory where the machine has such a folder: what is tried is how the files stand, and not how a disk writes them.</summary>
    const string Memory = "/dev/shm";

    readonly string _folder = Path.Combine(Directory.Exists(Memory) ? Memory : Path.GetTempPath(), "earhelp-" + Guid.NewGuid().ToString("N"));
    readonly RecordedDisk _disk = new();
    readonly List<(int At, string Conversation, int Turns)> _asked = [];
    readonly List<(int At, string Conversation, int Turns)> _acknowledged = [];
    readonly Dictionary<string, TurnRecord> _last = new(StringComparer.Ordinal);

    public async Task InitializeAsync()
    {
        await using var store = LiteTurnStore.Open(Path.Combine(_folder, "run"), new StoreOptions { Watch = _disk, CheckpointPages = 25 });
        await store.KeepAsync("edition", Encoding.UTF8.GetBytes(new string('e', 20_000)), default);
        await AppendAsync(store, Erased);
        for (var i = 0; i < 5; i++)
            await Task.WhenAll(Stay.Select(c => AppendAsync(store, c)));
        _asked.Add((_disk.Count, Erased, 0));
        var erasing = store.EraseAsync(Erased, default).AsTask();
        for (var i = 0; i < 3; i++)
            await Task.WhenAll(Stay.Select(c => AppendAsync(store, c)));
        await erasing;
        _acknowledged.Add((_disk.Count, Erased, 0));
        for (var i = 0; i < 5; i++)
            await Task.WhenAll(Stay.Select(c => AppendAsync(store, c)));
    }

    public Task DisposeAsync()
    {
        Directory.Delete(_folder, true);
        return Task.CompletedTask;
    }

    [Fact]
    public async Task Whatever_is_left_of_the_files_every_acknowledged_turn_is_there_and_none_is_half_there()
    {
        var chance = new Random(20261125);
        for (var point = 0; point < Layouts * (_disk.Count + 1); point++)
        {
            var cut = point / Layouts;
            var folder = Path.Combine(_folder, $"point {point}");
            _disk.LayOut(cut, chance, folder);
            await using (var store = LiteTurnStore.Open(folder, new StoreOptions()))
            {
                foreach (var conversation in Stay)
                    await AssertWholeAsync(store, conversation, cut);
                await AssertErasedAsync(store, folder, cut);
                Assert.IsType<Appended.Kept>(await store.AppendAsync(SomeTurns.First("after"), [], default));
            }

            Directory.Delete(folder, true);
        }

        output.WriteLine($"{Layouts * (_disk.Count + 1)} cut points at {_disk.Count} changes of the files: each acknowledged turn was there, none by halves.");
        Assert.True(_disk.Count > 200, $"only {_disk.Count} changes were cut");
    }

    async Task AppendAsync(LiteTurnStore store, string conversation)
    {
        var turn = _last.TryGetValue(conversation, out var last)
            ? SomeTurns.After(last)
            : SomeTurns.First(conversation, text: (conversation == Erased ? Secret : "text") + new string('x', 900));
        _last[conversation] = turn;
        lock (_acknowledged)
            _asked.Add((_disk.Count, conversation, turn.Number));
        Assert.IsType<Appended.Kept>(await store.AppendAsync(turn, [new ConversationKey($"key {conversation} {turn.Number}", false, null)], default));
        lock (_acknowledged)
            _acknowledged.Add((_disk.Count, conversation, turn.Number));
    }

    async Task AssertWholeAsync(LiteTurnStore store, string conversation, int cut)
    {
        var kept = await store.LoadAsync(conversation, default);

        Assert.InRange(kept.Length, Most(_acknowledged, conversation, cut), Most(_asked, conversation, cut));
        foreach (var turn in kept)
            Assert.Equal(conversation, await store.FindByKeyAsync($"key {conversation} {turn.Number}", 0, default));
    }

    async Task AssertErasedAsync(LiteTurnStore store, string folder, int cut)
    {
        if (!_acknowledged.Exists(a => a is { Conversation: Erased, Turns: 0 } && a.At <= cut))
            return;
        Assert.Empty(await store.LoadAsync(Erased, default));
        Assert.DoesNotContain(Directory.EnumerateFiles(folder, "earhelp*.db"), f => Holds(f, Secret));
    }

    /// <summary>The highest number so far; the cut itself is not yet done.</summary>
    static int Most(List<(int At, string Conversation, int Turns)> marks, string conversation, int cut) =>
        marks.Where(m => m.Conversation == conversation && m.At <= cut).Select(m => m.Turns).DefaultIfEmpty(0).Max();

    static bool Holds(string file, string text)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;
    }
}
