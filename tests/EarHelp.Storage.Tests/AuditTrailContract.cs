using EarHelp.Clinic.Auditing;
using EarHelp.Storage.Tests.Places;
using NodaTime;

namespace EarHelp.Storage.Tests;

public abstract class AuditTrailContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    static readonly AuditEntry Read = new(Instant.FromUtc(2026, 11, 26, 9, 0), "jo", AuditDeed.ReadConversation, "c");

    [Fact]
    public async Task Entries_added_side_by_side_are_all_kept_in_one_whole_chain_and_outlive_an_erasure_and_a_restart()
    {
        await Task.WhenAll(Enumerable.Range(0, 50).Select(i => Task.Run(async () => await Opened.Audit.AddAsync(Read with { Who = $"{i}" }, default))));
        await Opened.AppendAsync(SomeTurns.First("c"), [], default);
        await Opened.EraseAsync("c", default);
        await Opened.Audit.AddAsync(Read with { Deed = AuditDeed.Erased, Account = "a" }, default);

        await OpenAgainAsync();
        var read = await Opened.Audit.ReadAsync(default);

        Assert.Null(read.FirstDamaged);
        Assert.Equal(Enumerable.Range(0, 50).Select(i => $"{i}").Order(), read.Entries.SkipLast(1).Select(e => e.Who).Order());
        Assert.Equal(Read with { Deed = AuditDeed.Erased, Account = "a" }, read.Entries[^1]);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task An_entry_that_was_changed_or_taken_out_is_found_and_work_goes_on(bool isChanged)
    {
        for (var i = 0; i < 3; i++)
            await Opened.Audit.AddAsync(Read with { Who = $"{i}" }, default);

        await OpenAgainAsync(() => Place.TamperAsync("audit", 2, isChanged ? "no entry"u8.ToArray() : null));
        await Opened.Audit.AddAsync(Read, default);
        var read = await Opened.Audit.ReadAsync(default);

        Assert.Equal(isChanged ? 2 : 3, read.FirstDamaged);
        Assert.Equal("0", Assert.Single(read.Entries).Who);
    }

    public sealed class InLiteDb() : AuditTrailContract(LiteAsync);

    public sealed class InPostgres() : AuditTrailContract(PostgresAsync);
}
