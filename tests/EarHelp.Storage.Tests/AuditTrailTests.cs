using EarHelp.Clinic.Auditing;
using NodaTime;

namespace EarHelp.Storage.Tests;

public sealed class AuditTrailTests : IDisposable
{
    static readonly AuditEntry Read = new(Instant.FromUtc(2026, 11, 26, 9, 0), "jo", AuditDeed.ReadConversation, "c");

    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public async Task Entries_added_side_by_side_are_all_kept_in_one_whole_chain_and_outlive_an_erasure_and_a_restart()
    {
        await using (var store = LiteTurnStore.Open(_folder, new StoreOptions()))
        {
            await Task.WhenAll(Enumerable.Range(0, 50).Select(i => Task.Run(async () => await store.Audit.AddAsync(Read with { Who = $"{i}" }, default))));
            await store.AppendAsync(SomeTurns.First("c"), [], default);
            await store.EraseAsync("c", default);
            await store.Audit.AddAsync(Read with { Deed = AuditDeed.Erased, Account = "a" }, default);
        }

        await using var again = LiteTurnStore.Open(_folder, new StoreOptions());
        var read = await again.Audit.ReadAsync(default);

        Assert.Null(read.FirstDamaged);
        Assert.Equal(Enumerable.Range(0, 50).Select(i => $"{i}").Order(), read.Entries.SkipLast(1).Select(e => e.Who).Order());
        Assert.Equal(Read with { Deed = AuditDeed.Erased, Account = "a" }, read.Entries[^1]);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task An_entry_that_was_changed_or_taken_out_is_found_and_work_goes_on(bool isChanged)
    {
        await using (var store = LiteTurnStore.Open(_folder, new StoreOptions()))
        {
            for (var i = 0; i < 3; i++)
                await store.Audit.AddAsync(Read with { Who = $"{i}" }, default);
        }

        using (var tampered = new LiteDB.LiteDatabase(Path.Combine(_folder, "earhelp.db")))
        {
            var entries = tampered.GetCollection("audit");
            var second = entries.FindById(2);
            second["b"] = "no entry"u8.ToArray();
            _ = isChanged ? entries.Update(second) : entries.Delete(2);
        }

        await using var again = LiteTurnStore.Open(_folder, new StoreOptions());
        await again.Audit.AddAsync(Read, default);
        var read = await again.Audit.ReadAsync(default);

        Assert.Equal(isChanged ? 2 : 3, read.FirstDamaged);
        Assert.Equal("0", Assert.Single(read.Entries).Who);
    }
}
