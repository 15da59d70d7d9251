using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Storage.Tests.Places;
using NodaTime;

namespace EarHelp.Storage.Tests;

public abstract class StaffStoreContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    static readonly Instant At = Instant.FromUtc(2026, 11, 26, 9, 0);

    static readonly StaffAccount Jo = new("j", 1, "Jo", [StaffRole.Desk, StaffRole.Clinician], StaffState.Open, "stamp")
    {
        SignInName = "jo",
        PasswordHash = "hash",
        SealedCodeKey = "sealed",
        SpentCode = "123456",
        Failures = 2,
        LockedUntil = At,
        Invitation = new Invitation("ab", At),
        Passkeys = [new Passkey("aWQ=", "a2V5", At, uint.MaxValue, ["internal"], true, true, false, "YXR0", "e30=")],
    };

    [Fact]
    public async Task Gives_an_account_back_as_it_was_after_closing_and_after_an_erasure_too()
    {
        Assert.Equal(StaffPut.Kept, await Opened.Staff.PutAsync(Jo, default));
        await Opened.AppendAsync(SomeTurns.First("c"), [], default);
        await Opened.EraseAsync("c", default);

        await OpenAgainAsync();

        var found = await Opened.Staff.FindAsync("j", default);
        Assert.Equal(Jo.Roles, found!.Roles.AsEnumerable());
        Assert.Equal(Jo.Passkeys[0] with { Transports = [] }, Assert.Single(found.Passkeys) with { Transports = [] });
        Assert.Equal("internal", Assert.Single(found.Passkeys[0].Transports));
        Assert.Equal(Jo with { Roles = [], Passkeys = [] }, found with { Roles = [], Passkeys = [] });
        Assert.Null(await Opened.Staff.FindAsync("nobody", default));
    }

    [Fact]
    public async Task Of_fifty_changes_of_one_version_one_is_kept_and_a_name_belongs_to_one_person()
    {
        await Opened.Staff.PutAsync(Jo, default);

        var put = await Task.WhenAll(Enumerable.Range(0, 50).Select(i => Task.Run(async () => await Opened.Staff.PutAsync(Jo with { Version = 2, Failures = i }, default))));

        Assert.Single(put, p => p == StaffPut.Kept);
        Assert.Equal(StaffPut.NameTaken, await Opened.Staff.PutAsync(Jo with { Id = "k" }, default));
        Assert.Equal(StaffPut.Kept, await Opened.Staff.PutAsync(Jo with { Id = "k", SignInName = "" }, default));
        Assert.Equal(StaffPut.Kept, await Opened.Staff.PutAsync(Jo with { Id = "l", SignInName = "" }, default));
        Assert.Equal(["j", "k", "l"], (await Opened.Staff.AllAsync(default)).Select(a => a.Id));
    }

    public sealed class InLiteDb() : StaffStoreContract(LiteAsync);

    public sealed class InPostgres() : StaffStoreContract(PostgresAsync);
}
