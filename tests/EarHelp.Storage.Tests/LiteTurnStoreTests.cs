using System.Text;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Disk;

namespace EarHelp.Storage.Tests;

public sealed class LiteTurnStoreTests : TurnStoreContract
{
    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;
    LiteTurnStore? _store;

    public override async Task DisposeAsync()
    {
        if (_store is not null)
            await _store.DisposeAsync();
        Directory.Delete(_folder, true);
    }

    protected override Task<ITurnStore> OpenAsync()
    {
        _store = LiteTurnStore.Open(_folder, new StoreOptions());
        return Task.FromResult<ITurnStore>(_store);
    }

    [Fact]
    public async Task What_was_kept_is_there_after_closing_and_opening_again()
    {
        await Store.AppendAsync(SomeTurns.First("a"), [new ConversationKey("key", false, null)], default);

        await ReopenAsync();

        Assert.Single(await Store.LoadAsync("a", default));
        Assert.Single(await _store!.LoadAsync("a", default));
        Assert.Equal("a", await _store.FindByKeyAsync("key", 0, default));
        Assert.IsType<Appended.Repeated>(await _store.AppendAsync(SomeTurns.First("a"), [], default));
    }

    [Fact]
    public async Task No_file_of_the_folder_holds_the_text_of_an_erased_conversation()
    {
        var canary = "canary-9f27c1";
        for (var i = 0; i < 20; i++)
            await Store.AppendAsync(SomeTurns.First($"other {i}"), [], default);
        await Store.AppendAsync(SomeTurns.First("a", text: canary), [], default);
        Assert.True(FilesHold(canary));

        await Store.EraseAsync("a", default);

        Assert.False(FilesHold(canary));
        await ReopenAsync();
        Assert.Single(await _store!.LoadAsync("other 7", default));
    }

    [Fact]
    public async Task A_damaged_record_is_named_and_never_given_out()
    {
        var first = SomeTurns.First("a");
        await Store.AppendAsync(first with { Body = Encoding.UTF8.GetBytes("changed later") }, [], default);

        var failure = await Assert.ThrowsAsync<StoreFailedException>(async () => await Store.LoadAsync("a", default));

        Assert.Contains("Turn 1 of conversation a", failure.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task After_a_failure_of_the_disk_nothing_more_is_taken_and_what_was_acknowledged_stays()
    {
        var folder = Directory.CreateTempSubdirectory("earhelp").FullName;
        var disk = new WatchedDisk();
        var store = LiteTurnStore.Open(folder, new StoreOptions { Watch = disk });
        var first = SomeTurns.First("a");
        await store.AppendAsync(first, [], default);
        disk.IsFull = true;

        await Assert.ThrowsAsync<StoreFailedException>(async () => await store.AppendAsync(SomeTurns.After(first), [], default));
        disk.IsFull = false;
        await Assert.ThrowsAsync<StoreFailedException>(async () => await store.AppendAsync(SomeTurns.After(first), [], default));
        Assert.False(store.IsHealthy);
        await store.DisposeAsync();

        await using (var again = LiteTurnStore.Open(folder, new StoreOptions()))
            Assert.Equal([first.Hash], (await again.LoadAsync("a", default)).Select(t => t.Hash));
        Directory.Delete(folder, true);
    }

    [Fact]
    public async Task The_first_turn_ever_can_be_kept_while_others_read()
    {
        for (var round = 0; round < 20; round++)
        {
            var folder = Directory.CreateTempSubdirectory("earhelp").FullName;
            await using (var store = LiteTurnStore.Open(folder, new StoreOptions()))
            {
                await Task.WhenAll(Enumerable.Range(0, 32).Select(c => Task.Run(async () =>
                {
                    Assert.Null(await store.FindByKeyAsync($"key {c}", 0, default));
                    await store.AppendAsync(SomeTurns.First($"c{c}"), [new ConversationKey($"key {c}", false, null)], default);
                    Assert.Equal($"c{c}", await store.FindByKeyAsync($"key {c}", 0, default));
                })));
                Assert.True(store.IsHealthy);
            }

            Directory.Delete(folder, true);
        }
    }

    /// <summary>LiteDB gives a page that one thread is about to read to another that needs room.</summary>
    [Fact]
    public async Task Nobody_reads_while_a_turn_is_written()
    {
        var folder = Directory.CreateTempSubdirectory("earhelp").FullName;
        var disk = new WatchedDisk();
        await using (var store = LiteTurnStore.Open(folder, new StoreOptions { Watch = disk }))
        {
            var cameIn = false;
            Task? reading = null;
            disk.Writes = () =>
            {
                reading ??= Task.Run(async () => await store.LoadAsync("other", default));
                cameIn |= reading.Wait(TimeSpan.FromMilliseconds(200));
            };

            await store.AppendAsync(SomeTurns.First("a"), [], default);

            await reading!;
            Assert.False(cameIn);
            disk.Writes = null;
        }

        Directory.Delete(folder, true);
    }

    async Task ReopenAsync()
    {
        await _store!.DisposeAsync();
        await InitializeAsync();
    }

    bool FilesHold(string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        return Directory.EnumerateFiles(_folder).Where(f => !f.EndsWith(".lock", StringComparison.Ordinal)).Any(f =>
        {
            using var file = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var all = new byte[file.Length];
            file.ReadExactly(all);
            return all.AsSpan().IndexOf(bytes) >= 0;
        });
    }

    sealed class WatchedDisk : IDiskWatch
    {
        public bool IsFull { get; set; }

        /// <summary>Done before each write.</summary>
        public Action? Writes { get; set; }

        public void Writing(string file, long offset, ReadOnlySpan<byte> bytes, bool durable)
        {
            if (IsFull)
                throw new IOException("No space left on the device.");
            Writes?.Invoke();
        }

        public void Syncing(string file)
        {
        }

        public void Resizing(string file, long length)
        {
        }

        public void Renaming(string from, string to)
        {
        }

        public void Deleting(string file)
        {
        }
    }
}
