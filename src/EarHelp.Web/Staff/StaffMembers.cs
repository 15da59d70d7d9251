using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>What ASP.NET Core Identity asks of a store, over our own; the keys of one-time codes are kept encrypted.</summary>
public sealed partial class StaffMembers(IStaffStore store, IDataProtectionProvider protection)
    : IUserPasswordStore<StaffMember>, IUserSecurityStampStore<StaffMember>, IUserLockoutStore<StaffMember>,
    IUserAuthenticatorKeyStore<StaffMember>, IUserPasskeyStore<StaffMember>
{
    readonly IDataProtector _seal = protection.CreateProtector("the keys of one-time codes of staff");

    /// <summary>The name by which a person signs in, as it is kept.</summary>
    internal static string Plain(string? name) => (name ?? string.Empty).Trim().ToLowerInvariant();

    public Task<string> GetUserIdAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult(user.Account.Id);

    public Task<string?> GetUserNameAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Account.SignInName);

    public Task SetUserNameAsync(StaffMember user, string? userName, CancellationToken cancellationToken) =>
        Change(user, a => a with { SignInName = Plain(userName) });

    public Task<string?> GetNormalizedUserNameAsync(StaffMember user, CancellationToken cancellationToken) => GetUserNameAsync(user, cancellationToken);

    /// <summary>There is only one form of a name.</summary>
    public Task SetNormalizedUserNameAsync(StaffMember user, string? normalizedName, CancellationToken cancellationToken) => Task.CompletedTask;

    public Task<IdentityResult> CreateAsync(StaffMember user, CancellationToken cancellationToken) => UpdateAsync(user, cancellationToken);

    public async Task<IdentityResult> UpdateAsync(StaffMember user, CancellationToken cancellationToken)
    {
        var next = user.Account with { Version = user.Account.Version + 1 };
        switch (await store.PutAsync(next, cancellationToken))
        {
            case StaffPut.Kept:
                user.Account = next;
                return IdentityResult.Success;
            case StaffPut.NameTaken:
                return IdentityResult.Failed(new IdentityErrorDescriber().DuplicateUserName(next.SignInName));
            default:
                return IdentityResult.Failed(new IdentityErrorDescriber().ConcurrencyFailure());
        }
    }

    /// <summary>An account is closed and never deleted: the audit trail names it.</summary>
    public Task<IdentityResult> DeleteAsync(StaffMember user, CancellationToken cancellationToken)
    {
        user.Account = user.Account with { State = StaffState.Closed };
        return UpdateAsync(user, cancellationToken);
    }

    public async Task<StaffMember?> FindByIdAsync(string userId, CancellationToken cancellationToken) =>
        await store.FindAsync(userId, cancellationToken) is { } found ? new StaffMember(found) : null;

    public Task<StaffMember?> FindByNameAsync(string normalizedUserName, CancellationToken cancellationToken) =>
        FirstAsync(a => a.SignInName.Length > 0 && a.SignInName == Plain(normalizedUserName), cancellationToken);

    public Task<string?> GetPasswordHashAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult(user.Account.PasswordHash);

    public Task SetPasswordHashAsync(StaffMember user, string? passwordHash, CancellationToken cancellationToken) =>
        Change(user, a => a with { PasswordHash = passwordHash });

    public Task<bool> HasPasswordAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult(user.Account.PasswordHash is not null);

    public Task<string?> GetSecurityStampAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Account.Stamp);

    public Task SetSecurityStampAsync(StaffMember user, string stamp, CancellationToken cancellationToken) => Change(user, a => a with { Stamp = stamp });

    public Task<DateTimeOffset?> GetLockoutEndDateAsync(StaffMember user, CancellationToken cancellationToken) =>
        Task.FromResult(user.Account.LockedUntil?.ToDateTimeOffset());

    public Task SetLockoutEndDateAsync(StaffMember user, DateTimeOffset? lockoutEnd, CancellationToken cancellationToken) =>
        Change(user, a => a with { LockedUntil = lockoutEnd is { } end ? Instant.FromDateTimeOffset(end) : null });

    public async Task<int> IncrementAccessFailedCountAsync(StaffMember user, CancellationToken cancellationToken)
    {
        await Change(user, a => a with { Failures = a.Failures + 1 });
        return user.Account.Failures;
    }

    public Task ResetAccessFailedCountAsync(StaffMember user, CancellationToken cancellationToken) => Change(user, a => a with { Failures = 0 });

    public Task<int> GetAccessFailedCountAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult(user.Account.Failures);

    public Task<bool> GetLockoutEnabledAsync(StaffMember user, CancellationToken cancellationToken) => Task.FromResult(true);

    /// <summary>Every account can be locked.</summary>
    public Task SetLockoutEnabledAsync(StaffMember user, bool enabled, CancellationToken cancellationToken) => Task.CompletedTask;

    public Task SetAuthenticatorKeyAsync(StaffMember user, string key, CancellationToken cancellationToken) =>
        Change(user, a => a with { SealedCodeKey = _seal.Protect(key) });

    public Task<string?> GetAuthenticatorKeyAsync(StaffMember user, CancellationToken cancellationToken) =>
        Task.FromResult(user.Account.SealedCodeKey is { } kept ? _seal.Unprotect(kept) : null);

    public void Dispose()
    {
    }

    static Task Change(StaffMember user, Func<StaffAccount, StaffAccount> change)
    {
        user.Account = change(user.Account);
        return Task.CompletedTask;
    }

    async Task<StaffMember?> FirstAsync(Func<StaffAccount, bool> isMeant, CancellationToken cancellation) =>
        (await store.AllAsync(cancellation)).FirstOrDefault(isMeant) is { } found ? new StaffMember(found) : null;
}
