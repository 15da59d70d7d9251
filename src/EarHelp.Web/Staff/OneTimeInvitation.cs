using EarHelp.Clinic.Staff;
using EarHelp.Web.Security;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>The one-time code that brings a member of staff in, for the first time or after everything was lost.</summary>
public static class OneTimeInvitation
{
    /// <summary>How long a one-time code brings somebody in: over a long weekend (common practice).</summary>
    const int ValidDays = 4;

    internal static readonly Duration ValidFor = Duration.FromDays(ValidDays);

    /// <summary>For who has lost everything: the old password, one-time codes and passkeys count no more, and every sign-in ends.</summary>
    internal static StaffAccount WithoutAll(StaffAccount account) =>
        account with { State = StaffState.Invited, PasswordHash = null, SealedCodeKey = null, Passkeys = [], Stamp = Secret.NewIdentifier(), Failures = 0, LockedUntil = null };

    /// <returns>The account as it is to be kept, and the code in groups, which is kept nowhere.</returns>
    public static (StaffAccount Account, string Code) For(StaffAccount account, Instant now)
    {
        ArgumentNullException.ThrowIfNull(account);
        var code = ReceiptCode.For(Secret.New(), account.Id);
        return (account with { Invitation = new Invitation(Secret.HashOf(code), now + ValidFor) }, ReceiptCode.InGroups(code));
    }
}
