using System.Text;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Tests;

public sealed class LedgerTests : IDisposable
{
    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public async Task Records_are_only_added_each_after_the_last_and_outlive_an_erasure_and_a_restart()
    {
        var first = ChainedRecord.After(null, Encoding.UTF8.GetBytes("one"));
        var second = ChainedRecord.After(first, Encoding.UTF8.GetBytes("two"));
        await using (var store = LiteTurnStore.Open(_folder, new StoreOptions()))
        {
            IEditionLedger ledger = store;
            Assert.False(await ledger.AppendAsync(second, default));
            Assert.True(await ledger.AppendAsync(first, default));
            Assert.False(await ledger.AppendAsync(ChainedRecord.After(null, Encoding.UTF8.GetBytes("another")), default));
            Assert.False(await ledger.AppendAsync(second with { Body = Encoding.UTF8.GetBytes("changed") }, default));
            Assert.True(await ledger.AppendAsync(second, default));
            await store.AppendAsync(SomeTurns.First("a"), [], default);
            await store.EraseAsync("a", default);
        }

        await using var again = LiteTurnStore.Open(_folder, new StoreOptions());

        Assert.Equal([first.Hash, second.Hash], (await ((IEditionLedger)again).ReadAsync(default)).Select(r => r.Hash));
    }

    [Fact]
    public async Task A_ledger_that_was_changed_is_neither_read_nor_added_to()
    {
        var first = ChainedRecord.After(null, Encoding.UTF8.GetBytes("one"));
        var second = ChainedRecord.After(first, Encoding.UTF8.GetBytes("two"));
        await using (var store = LiteTurnStore.Open(_folder, new StoreOptions()))
        {
            IEditionLedger ledger = store;
            Assert.True(await ledger.AppendAsync(first, default));
            Assert.True(await ledger.AppendAsync(second, default));
        }

        using (var tampered = new LiteDB.LiteDatabase(Path.Combine(_folder, "earhelp.db")))
        {
            var records = tampered.GetCollection("ledger");
            var record = records.FindById(1);
            record["b"] = Encoding.UTF8.GetBytes("other");
            records.Update(record);
        }

        await using var again = LiteTurnStore.Open(_folder, new StoreOptions());

        await Assert.ThrowsAsync<LedgerDamagedException>(async () => await ((IEditionLedger)again).ReadAsync(default));
        await Assert.ThrowsAsync<LedgerDamagedException>(async () => await ((IEditionLedger)again).AppendAsync(ChainedRecord.After(second, Encoding.UTF8.GetBytes("three")), default));
        await again.AppendAsync(SomeTurns.First("a"), [], default);
    }
}
