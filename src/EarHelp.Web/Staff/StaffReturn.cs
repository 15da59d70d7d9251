using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>
/// The way back in for who has lost everything, made by whoever may use the service's data folder: it works for the only administrator, too, whom no
/// page lets lose the account.
/// </summary>
public sealed class StaffReturn(IStaffStore store, Auditor auditor, TimeProvider clock)
{
    /// <summary>Ends the old password, one-time codes and passkeys of an account, and makes a one-time code for it.</summary>
    /// <param name="id">Its identifier, or the name to sign in with.</param>
    /// <returns>The code in groups, which is kept nowhere; null: there is no such account, or it is closed, or a system's.</returns>
    public async Task<string?> MakeCodeAsync(string id, CancellationToken cancellation)
    {
        while ((await store.AllAsync(cancellation)).FirstOrDefault(a => a.Id == id || (a.SignInName.Length > 0 && a.SignInName == StaffMembers.Plain(id))) is
            { State: not StaffState.Closed, TokenHash: null, IsFromProvider: false } account)
        {
            var next = OneTimeInvitation.WithoutAll(account) with { Version = account.Version + 1 };
            var (invited, code) = OneTimeInvitation.For(next, Instant.FromDateTimeOffset(clock.GetUtcNow()));
            await auditor.AddAboutAccountAsync(Actor.Terminal, AuditDeed.Invited, account.Id, cancellation);
            if (await store.PutAsync(invited, cancellation) == StaffPut.Kept)
                return code;
        }

        return null;
    }
}
