using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using NodaTime;

namespace EarHelp.Storage.Tests;

public sealed class StaffStoreTests : IAsyncLifetime
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

    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;
    LiteTurnStore _store = null!;

    public Task InitializeAsync()
    {
        _store = LiteTurnStore.Open(_folder, new StoreOptions());
        return Task.CompletedTask;
    }

    public async Task DisposeAsync()
    {
        await _store.DisposeAsync();
        Directory.Delete(_folder, true);
    }

    [Fact]
    public async Task Gives_an_account_back_as_it_was_after_closing_and_after_an_erasure_too()
    {
        Assert.Equal(StaffPut.Kept, await _store.Staff.PutAsync(Jo, default));
        await _store.AppendAsync(SomeTurns.First("c"), [], default);
        await _store.EraseAsync("c", default);

        await _store.DisposeAsync();
        _store = LiteTurnStore.Open(_folder, new StoreOptions());

        var found = await _store.Staff.FindAsync("j", default);
        Assert.Equal(Jo.Roles, found!.Roles.AsEnumerable());
        Assert.Equal(Jo.Passkeys[0] with { Transports = [] }, Assert.Single(found.Passkeys) with { Transports = [] });
        Assert.Equal("internal", Assert.Single(found.Passkeys[0].Transports));
        Assert.Equal(Jo with { Roles = [], Passkeys = [] }, found with { Roles = [], Passkeys = [] });
        Assert.Null(await _store.Staff.FindAsync("nobody", default));
    }

    [Fact]
    public async Task Of_fifty_changes_of_one_version_one_is_kept_and_a_name_belongs_to_one_person()
    {
        await _store.Staff.PutAsync(Jo, default);

        var put = await Task.WhenAll(Enumerable.Range(0, 50).Select(i => Task.Run(async () => await _store.Staff.PutAsync(Jo with { Version = 2, Failures = i }, default))));

        Assert.Single(put, p => p == StaffPut.Kept);
        Assert.Equal(StaffPut.NameTaken, await _store.Staff.PutAsync(Jo with { Id = "k" }, default));
        Assert.Equal(StaffPut.Kept, await _store.Staff.PutAsync(Jo with { Id = "k", SignInName = "" }, default));
        Assert.Equal(StaffPut.Kept, await _store.Staff.PutAsync(Jo with { Id = "l", SignInName = "" }, default));
        Assert.Equal(["j", "k", "l"], (await _store.Staff.AllAsync(default)).Select(a => a.Id));
    }
}
