using System.IO.Compression;
using System.Text;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Backups;
using EarHelp.Storage.Postgres;
using EarHelp.Storage.Records;
using EarHelp.Storage.Tests.Moving;
using EarHelp.Storage.Tests.Places;
using NodaTime;

namespace EarHelp.Storage.Tests.Backups;

public sealed class BackupTests : IDisposable
{
    static readonly DateTimeOffset At = new(2026, 11, 20, 9, 30, 0, TimeSpan.Zero);

    readonly string _folder = Directory.CreateTempSubdirectory("earhelp-backup").FullName;

    string File => Path.Combine(_folder, "backup.gz");

    public void Dispose() => Directory.Delete(_folder, true);

    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public async Task A_backup_is_restored_into_either_store_as_it_was(bool isFromPostgres, bool isToPostgres)
    {
        await using var from = await MakeAsync(isFromPostgres);
        await using var to = await MakeAsync(isToPostgres);
        string before;
        await using (var store = from.Open())
        {
            await FilledStore.FillAsync(store);
            before = await ReadStore.AllAsync(store);
            await WriteAsync(store);
        }

        var drilled = await Restoring.VerifyAsync(File, default);
        await using var target = to.Open();
        var restored = await Restoring.RestoreAsync(File, [], target, default);

        Assert.Equal(before, await ReadStore.AllAsync(target));
        Assert.Equal(restored.Parts.AsEnumerable(), drilled.Parts);
        Assert.Equal("2026-11-20T09:30:00Z", restored.Content.MadeAt);
        Assert.Empty(restored.Erased);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_backup_made_while_turns_are_taken_and_erased_holds_every_turn_of_before_and_no_half_one(bool isPostgres)
    {
        await using var from = await MakeAsync(isPostgres);
        await using var to = new LitePlace();
        await using var store = from.Open();
        await FilledStore.FillAsync(store);
        using var stopping = new CancellationTokenSource();
        var busy = Enumerable.Range(0, 4).Select(i => Task.Run(() => TalkOnAsync(store, i, stopping.Token))).ToArray();

        await WriteAsync(store);
        await stopping.CancelAsync();
        var told = (await Task.WhenAll(busy)).Sum();
        await using var target = to.Open();
        var restored = await Restoring.RestoreAsync(File, [], target, default);

        Assert.Empty(restored.Content.Damages);
        Assert.True(told > 0);
        foreach (var conversation in Enumerable.Range(100, FilledStore.Conversations - 100).Select(i => $"c{i}"))
            Assert.True((await target.LoadAsync(conversation, default)).Length >= 2);
    }

    [Fact]
    public async Task A_damaged_backup_is_refused_wherever_it_is_damaged_and_nothing_is_written()
    {
        await using var from = new LitePlace();
        await using (var store = from.Open())
        {
            await store.AppendAsync(SomeTurns.First("c"), [new ConversationKey("key", false, null)], default);
            await store.KeepAsync("edition", Encoding.UTF8.GetBytes("sources"), default);
            await WriteAsync(store);
        }

        var whole = await System.IO.File.ReadAllBytesAsync(File);
        var lines = Encoding.UTF8.GetString(Unpacked(whole)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var damaged = new List<byte[]> { Array.Empty<byte>(), "text"u8.ToArray() };

        // Every byte changed, and cut after every byte; most of that is seen by gzip already, so lines are changed too.
        damaged.AddRange(Enumerable.Range(0, whole.Length).Select(i => (byte[])[.. whole[..i], (byte)(whole[i] ^ 0x41), .. whole[(i + 1)..]]));
        damaged.AddRange(Enumerable.Range(1, whole.Length - 1).Select(i => whole[..i]));
        damaged.AddRange(Enumerable.Range(0, lines.Length).Select(i => Packed([.. lines[..i], .. lines[(i + 1)..]])));
        damaged.AddRange(Enumerable.Range(0, lines.Length).Select(i => Packed([.. lines[..i], lines[i], .. lines[i..]])));
        damaged.Add(Packed([.. lines, "turns []"]));
        damaged.Add(Packed([lines[0], "unknown []", .. lines[1..]]));
        await using var to = new LitePlace();
        await using var target = to.Open();

        foreach (var bytes in damaged.Where(d => !IsSameText(d, whole)))
        {
            await System.IO.File.WriteAllBytesAsync(File, bytes);
            await Assert.ThrowsAsync<StoreFailedException>(() => Restoring.RestoreAsync(File, [], target, default));
        }

        Assert.True(damaged.Count > 1_000);
        Assert.Empty(await target.ConversationsAsync(default));
        Assert.Null(await target.FindAsync("edition", default));
        await System.IO.File.WriteAllBytesAsync(File, whole);
        await Restoring.RestoreAsync(File, [], target, default);
        Assert.Single(await target.ConversationsAsync(default));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Nobody_who_was_erased_after_the_backup_comes_back_nor_whom_a_visit_joined_to_them(bool isPostgres)
    {
        var list = Path.Combine(_folder, ErasureList.FileName);
        await using var from = new LitePlace();
        await using var database = await PostgresPlace.MakeAsync();
        await using IStore store = isPostgres
            ? PostgresStore.Open(database.Address, new StoreOptions { ErasureList = list })
            : LiteTurnStore.Open(Path.Combine(_folder, "store"), new StoreOptions { ErasureList = list });
        foreach (var conversation in (string[])["alone", "before", "stays"])
            await store.AppendAsync(SomeTurns.First(conversation), [new ConversationKey("key of " + conversation, false, null)], default);
        await WriteAsync(store);

        // The visit that joins the two was recorded after the backup: only the list knows of it.
        await store.AppendAsync(SomeTurns.First("after"), [], default);
        await store.Visits.PutAsync(new Visit("after", "edition", Instant.FromUnixTimeMilliseconds(1), "jo", [], "before"), default);
        await store.EraseAsync("after", default);
        await store.EraseAsync("alone", default);
        await using var target = from.Open();
        var restored = await Restoring.RestoreAsync(File, ErasureList.Read(list), target, default);

        Assert.Equal(["stays"], (await target.ConversationsAsync(default)).AsEnumerable());
        Assert.Equal(["alone", "before"], restored.Erased.AsEnumerable());
        Assert.Null(await target.FindByKeyAsync("key of alone", 0, default));
        Assert.NotNull(await target.FindByKeyAsync("key of stays", 0, default));
        Assert.False(await from.HoldsAsync("alone"));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_cannot_be_written_on_the_list_is_not_erased_and_the_store_goes_on(bool isPostgres)
    {
        var list = Path.Combine(_folder, "no such folder", ErasureList.FileName);
        await using var database = await PostgresPlace.MakeAsync();
        await using IStore store = isPostgres
            ? PostgresStore.Open(database.Address, new StoreOptions { ErasureList = list })
            : LiteTurnStore.Open(Path.Combine(_folder, "store"), new StoreOptions { ErasureList = list });
        await store.AppendAsync(SomeTurns.First("c"), [], default);

        await Assert.ThrowsAsync<StoreFailedException>(async () => await store.EraseAsync("c", default));

        Assert.Single(await store.LoadAsync("c", default));
        Assert.IsType<Appended.Kept>(await store.AppendAsync(SomeTurns.First("d"), [], default));
    }

    [Fact]
    public async Task What_was_damaged_in_the_store_is_named_and_the_rest_is_in_the_backup()
    {
        await using var from = new LitePlace();
        await using (var filled = from.Open())
            await FilledStore.FillAsync(filled);
        await from.TamperAsync(ChainDocuments.Audit, 1, null);
        await using var store = from.Open();

        var content = await WriteAsync(store);

        Assert.StartsWith("Entry 2 of the audit is damaged", Assert.Single(content.Damages), StringComparison.Ordinal);
        Assert.Equal(content.Damages.AsEnumerable(), (await Restoring.VerifyAsync(File, default)).Content.Damages);
    }

    async Task<BackupContent> WriteAsync(IStore store)
    {
        await using var file = System.IO.File.Create(File);
        return await BackupWriter.WriteAsync(store, file, At, default);
    }

    static async Task<int> TalkOnAsync(IStore store, int talker, CancellationToken stopping)
    {
        var told = 0;
        for (var i = talker * 25; !stopping.IsCancellationRequested; i = (talker * 25) + ((i + 1) % 25))
        {
            var conversation = $"c{i}";
            if (told % 40 == 39)
            {
                await store.EraseAsync(conversation, default);
            }
            else if (await store.LoadAsync(conversation, default) is [.., var last])
            {
                await store.AppendAsync(SomeTurns.After(last), [], default);
            }

            told++;
        }

        return told;
    }

    static async Task<StorePlace> MakeAsync(bool isPostgres) => isPostgres ? await PostgresPlace.MakeAsync() : new LitePlace();

    /// <summary>Some bytes of gzip's own carry no text, nor does the end of the last line.</summary>
    static bool IsSameText(byte[] file, byte[] whole)
    {
        try
        {
            return Unpacked(file).AsSpan().TrimEnd((byte)'\n').SequenceEqual(Unpacked(whole).AsSpan().TrimEnd((byte)'\n'));
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }

    static byte[] Unpacked(byte[] file)
    {
        using var unpacked = new MemoryStream();
        using (var packed = new GZipStream(new MemoryStream(file), CompressionMode.Decompress))
            packed.CopyTo(unpacked);
        return unpacked.ToArray();
    }

    static byte[] Packed(IEnumerable<string> lines)
    {
        using var to = new MemoryStream();
        using (var packed = new GZipStream(to, CompressionLevel.Fastest))
            packed.Write(Encoding.UTF8.GetBytes(string.Concat(lines.Select(l => l + "\n"))));
        return to.ToArray();
    }
}
