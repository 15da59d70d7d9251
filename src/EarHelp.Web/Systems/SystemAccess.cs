using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Systems;

/// <summary>Which of the clinic's own systems may read here: each has an account with a token, of which only the hash is kept.</summary>
public sealed class SystemAccess(IStaffStore store, Auditor auditor)
{
    /// <summary>Lets a system read from now on.</summary>
    /// <param name="by">Identifier of the administrator, or <see cref="Actor.Terminal"/>.</param>
    /// <param name="name">As colleagues read it; not empty.</param>
    /// <returns>The account, and the token, which is shown once.</returns>
    public async Task<(StaffAccount Account, string Token)> LetReadAsync(string by, string name, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        var token = Secret.New();
        var account = new StaffAccount(Secret.NewIdentifier(), 1, name, [StaffRole.System], StaffState.Open, Secret.NewIdentifier()) { TokenHash = Secret.HashOf(token) };
        await auditor.AddAboutAccountAsync(by, AuditDeed.LetSystemRead, account.Id, cancellation);
        await store.PutAsync(account, cancellation);
        return (account, token);
    }

    /// <summary>From now on its token opens nothing.</summary>
    /// <returns>False: there is no such system, or it ended before.</returns>
    public async Task<bool> EndAsync(string by, string id, CancellationToken cancellation)
    {
        while (await store.FindAsync(id, cancellation) is { State: StaffState.Open, TokenHash: not null } account)
        {
            await auditor.AddAboutAccountAsync(by, AuditDeed.AccountClosed, account.Id, cancellation);
            if (await store.PutAsync(account with { Version = account.Version + 1, State = StaffState.Closed, TokenHash = null }, cancellation) == StaffPut.Kept)
                return true;
        }

        return false;
    }

    /// <summary>Those that may read now.</summary>
    public async Task<ImmutableArray<StaffAccount>> AllAsync(CancellationToken cancellation) =>
        [.. (await store.AllAsync(cancellation)).Where(a => a.Has(StaffRole.System))];

    /// <summary>The system that shows this token; null: it opens nothing.</summary>
    public async Task<StaffAccount?> FindAsync(string token, CancellationToken cancellation)
    {
        if (!Secret.IsWellFormed(token))
            return null;
        var hash = Secret.HashOf(token);
        return (await AllAsync(cancellation)).FirstOrDefault(a => a.TokenHash == hash);
    }
}
