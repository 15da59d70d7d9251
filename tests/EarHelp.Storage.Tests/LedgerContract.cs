using System.Text;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Tests.Places;

namespace EarHelp.Storage.Tests;

public abstract class LedgerContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    IEditionLedger Ledger => Opened;

    [Fact]
    public async Task Records_are_only_added_each_after_the_last_and_outlive_an_erasure_and_a_restart()
    {
        var first = ChainedRecord.After(null, Encoding.UTF8.GetBytes("one"));
        var second = ChainedRecord.After(first, Encoding.UTF8.GetBytes("two"));
        Assert.False(await Ledger.AppendAsync(second, default));
        Assert.True(await Ledger.AppendAsync(first, default));
        Assert.False(await Ledger.AppendAsync(ChainedRecord.After(null, Encoding.UTF8.GetBytes("another")), default));
        Assert.False(await Ledger.AppendAsync(second with { Body = Encoding.UTF8.GetBytes("changed") }, default));
        Assert.True(await Ledger.AppendAsync(second, default));
        await Opened.AppendAsync(SomeTurns.First("a"), [], default);
        await Opened.EraseAsync("a", default);

        await OpenAgainAsync();

        Assert.Equal([first.Hash, second.Hash], (await Ledger.ReadAsync(default)).Select(r => r.Hash));
    }

    [Fact]
    public async Task A_ledger_that_was_changed_is_neither_read_nor_added_to()
    {
        var first = ChainedRecord.After(null, Encoding.UTF8.GetBytes("one"));
        var second = ChainedRecord.After(first, Encoding.UTF8.GetBytes("two"));
        Assert.True(await Ledger.AppendAsync(first, default));
        Assert.True(await Ledger.AppendAsync(second, default));

        await OpenAgainAsync(() => Place.TamperAsync("ledger", 1, Encoding.UTF8.GetBytes("other")));

        await Assert.ThrowsAsync<LedgerDamagedException>(async () => await Ledger.ReadAsync(default));
        await Assert.ThrowsAsync<LedgerDamagedException>(async () => await Ledger.AppendAsync(ChainedRecord.After(second, Encoding.UTF8.GetBytes("three")), default));
        await Opened.AppendAsync(SomeTurns.First("a"), [], default);
    }

    [Fact]
    public async Task The_sources_of_an_edition_are_found_by_its_hash_and_those_of_another_are_not_there()
    {
        await Opened.KeepAsync("edition", new byte[] { 1, 2, 3 }, default);
        await Opened.KeepAsync("edition", new byte[] { 1, 2, 3 }, default);

        Assert.Equal([1, 2, 3], (await Opened.FindAsync("edition", default))!.Value.ToArray());
        Assert.Null(await Opened.FindAsync("never served", default));
    }

    public sealed class InLiteDb() : LedgerContract(LiteAsync);

    public sealed class InPostgres() : LedgerContract(PostgresAsync);
}
