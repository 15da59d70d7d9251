using System.Text;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Disk;

namespace EarHelp.Storage.Tests;

/// <summary>The file is written anew without what was erased, while others use it. It is held in the middle, so that nothing depends on who is quicker.</summary>
public sealed class RenewalTests : IAsyncLifetime
{
    const string Secret = "kanarienvogel";

    readonly string _folder = Directory.CreateTempSubdirectory("earhelp-renewal-").FullName;
    readonly HeldCopy _held = new();
    LiteTurnStore _store = null!;

    public async Task InitializeAsync()
    {
        _store = LiteTurnStore.Open(_folder, new StoreOptions { Watch = _held });
        await Task.WhenAll(Enumerable.Range(0, 1_200).Select(i => AddAsync($"stays {i}")));
        await AddAsync("goes", Secret);
        await AddAsync("goes too", Secret + " too");
    }

    public async Task DisposeAsync()
    {
        _held.LetGo();
        await _store.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Turns_are_taken_read_and_spent_meanwhile_and_all_of_it_is_in_the_new_file()
    {
        var erasing = await EraseAsync();

        await Task.WhenAll(Enumerable.Range(0, 1_200).Where(i => i % 2 == 0).Select(async i =>
            Assert.IsType<Appended.Kept>(await _store.AppendAsync(SomeTurns.After((await _store.LoadAsync($"stays {i}", default))[0]), [], default))));
        await Task.WhenAll(Enumerable.Range(0, 600).Select(i => AddAsync($"new {i}")));
        Assert.True(await _store.SpendKeyAsync("key stays 3", default));
        Assert.False(erasing.IsCompleted);
        _held.LetGo();

        Assert.True(await erasing);
        await OpenAgainAsync();
        for (var i = 0; i < 1_200; i++)
            Assert.Equal(i % 2 == 0 ? 2 : 1, (await _store.LoadAsync($"stays {i}", default)).Length);
        for (var i = 0; i < 600; i++)
            Assert.Equal($"new {i}", await _store.FindByKeyAsync($"key new {i}", 0, default));
        Assert.Null(await _store.FindByKeyAsync("key stays 3", 0, default));
        Assert.Equal(1_801, (await _store.ConversationsAsync(default)).Length);
        Assert.False(HoldsSecret(Secret + "text"));
    }

    [Fact]
    public async Task What_is_erased_while_a_copy_is_made_that_may_hold_it_is_not_in_the_file_afterwards()
    {
        var (first, second) = await EraseTwoAsync();
        _held.LetGo();

        Assert.True(await first);
        Assert.True(await second);

        Assert.False(HoldsSecret());
        Assert.False(File.Exists(Path.Combine(_folder, "earhelp-erased")));
        Assert.Equal(1_200, (await _store.ConversationsAsync(default)).Length);
    }

    [Fact]
    public async Task A_store_that_is_closed_meanwhile_says_so_and_is_written_anew_at_the_next_start()
    {
        var (first, second) = await EraseTwoAsync();
        var closing = _store.DisposeAsync().AsTask();
        _held.LetGo();
        await closing;

        await Assert.ThrowsAsync<StoreFailedException>(() => first);
        await Assert.ThrowsAsync<StoreFailedException>(() => second);
        Assert.True(File.Exists(Path.Combine(_folder, "earhelp-erased")));
        _store = LiteTurnStore.Open(_folder, new StoreOptions());

        Assert.False(HoldsSecret());
        Assert.Equal(1_200, (await _store.ConversationsAsync(default)).Length);
    }

    [Fact]
    public async Task A_disk_that_fails_meanwhile_fails_the_store_and_the_next_start_mends_it()
    {
        var erasing = await EraseAsync();
        _held.LetGo(new IOException("The disk is full."));

        var failure = await Assert.ThrowsAsync<StoreFailedException>(() => erasing);
        Assert.Contains("The disk is full.", failure.Message, StringComparison.Ordinal);
        Assert.False(_store.IsHealthy);
        await OpenAgainAsync();

        Assert.False(HoldsSecret(Secret + "text"));
        Assert.Equal(1_201, (await _store.ConversationsAsync(default)).Length);
    }

    /// <summary>An erasure that is held in the middle of its copy.</summary>
    async Task<Task<bool>> EraseAsync()
    {
        _held.Hold();
        var erasing = _store.EraseAsync("goes", default).AsTask();
        await _held.Reached;
        return erasing;
    }

    /// <summary>And one that came meanwhile.</summary>
    async Task<(Task<bool> First, Task<bool> Second)> EraseTwoAsync()
    {
        var first = await EraseAsync();
        var second = _store.EraseAsync("goes too", default).AsTask();
        while (!(await _store.LoadAsync("goes too", default)).IsEmpty)
            await Task.Yield();
        return (first, second);
    }

    async Task OpenAgainAsync()
    {
        await _store.DisposeAsync();
        _store = LiteTurnStore.Open(_folder, new StoreOptions());
    }

    async Task AddAsync(string conversation, string text = "text") => Assert.IsType<Appended.Kept>(
        await _store.AppendAsync(SomeTurns.First(conversation, text: text + "text"), [new ConversationKey("key " + conversation, false, null)], default));

    bool HoldsSecret(string secret = Secret) => Directory.EnumerateFiles(_folder, "earhelp*.db").Any(f =>
    {
        using var stream = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(secret)) >= 0;
    });

    /// <summary>A disk that holds the copy of the file in the middle, until it may go on.</summary>
    sealed class HeldCopy : IDiskWatch
    {
        readonly TaskCompletionSource _reached = new(TaskCreationOptions.RunContinuationsAsynchronously);
        volatile TaskCompletionSource? _go;
        volatile Exception? _failure;

        public Task Reached => _reached.Task;

        public void Hold() => _go = new TaskCompletionSource();

        public void LetGo(Exception? failure = null)
        {
            _failure = failure;
            _go?.TrySetResult();
        }

        public void Writing(string file, long offset, ReadOnlySpan<byte> bytes, bool durable) => Met(file);

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

        void Met(string file)
        {
            if (_go is not { } go || !file.Contains("-next", StringComparison.Ordinal) || Thread.CurrentThread.Name == "store writer")
                return;
            _reached.TrySetResult();
            go.Task.Wait();
            if (_failure is { } failure)
                throw failure;
        }
    }
}
