using System.Security.Cryptography;
using EarHelp.Clinic.Auditing;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;

namespace EarHelp.Web.Staff;

/// <summary>
/// A member of staff changes the password, or moves the one-time codes to another app, after showing again who they are. Every other sign-in of
/// theirs ends.
/// </summary>
public sealed class OwnAccountPosts(StaffGate gate, SignInPages signIn, Auditor auditor, IDataProtectionProvider protection)
{
    /// <summary>How long a new key waits for its first code (common practice).</summary>
    const int KeyWaitsMinutes = 15;

    readonly ITimeLimitedDataProtector _seal = protection.CreateProtector("a new key of one-time codes that waits for its first code").ToTimeLimitedDataProtector();

    public async Task ChangePasswordAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, fields))
            return;
        var (members, member) = (Members(context), new StaffMember(by.Account));
        var password = fields[OwnAccountPages.NewPassword].ToString();
        if (await JoinPages.FaultOfPasswordAsync(members, member, password) is not null)
            await OwnAccountPages.SendPasswordAsync(context, by, "staff join password short");
        else if (!await signIn.IsShownAgainAsync(context, member, fields))
            await OwnAccountPages.SendPasswordAsync(context, by, "staff own wrong");
        else
        {
            member.Account = member.Account with { PasswordHash = members.PasswordHasher.HashPassword(member, password) };
            await KeepAsync(context, by, member, AuditDeed.PasswordChanged, "staff password change", "staff password changed");
        }
    }

    public async Task ShowKeyAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, fields))
            return;
        if (!await signIn.IsShownAgainAsync(context, new StaffMember(by.Account), fields))
        {
            await OwnAccountPages.SendCodesAsync(context, by, "staff own wrong");
            return;
        }

        var key = Members(context).GenerateNewAuthenticatorKey();
        var sealedKey = _seal.Protect($"{by.Account.Id} {key}", TimeSpan.FromMinutes(KeyWaitsMinutes));
        await OwnAccountPages.SendKeyAsync(context, by, key, sealedKey, null);
    }

    /// <summary>The new app has shown a right code: from now on its codes count, and the old app's do not.</summary>
    public async Task ConfirmKeyAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, fields))
            return;
        var sealedKey = fields[OwnAccountPages.SealedKey].ToString();
        if (KeyIn(sealedKey, by.Account.Id) is not { } key)
        {
            await OwnAccountPages.SendCodesAsync(context, by, "staff codes late");
            return;
        }

        var (members, member) = (Members(context), new StaffMember(by.Account));
        await context.RequestServices.GetRequiredService<StaffMembers>().SetAuthenticatorKeyAsync(member, key, context.RequestAborted);
        var digits = string.Concat(fields[StaffForm.Code].ToString().Where(char.IsAsciiDigit));
        if (!await members.VerifyTwoFactorTokenAsync(member, TokenOptions.DefaultAuthenticatorProvider, digits))
        {
            await OwnAccountPages.SendKeyAsync(context, by, key, sealedKey, "staff join one-time wrong");
            return;
        }

        member.Account = member.Account with { SpentCode = digits };
        await KeepAsync(context, by, member, AuditDeed.CodeKeyChanged, "staff codes change", "staff codes changed");
    }

    /// <summary>A new stamp ends every sign-in; this browser is signed in again.</summary>
    async Task KeepAsync(HttpContext context, SignedIn by, StaffMember member, AuditDeed deed, string heading, string done)
    {
        member.Account = member.Account with { Stamp = Security.Secret.NewIdentifier() };
        await auditor.AddAboutAccountAsync(by.Account.Id, deed, by.Account.Id, context.RequestAborted);
        if (!(await Members(context).UpdateAsync(member)).Succeeded)
        {
            await OwnAccountPages.SendDoneAsync(context, by, heading, "staff changed meanwhile");
            return;
        }

        await context.RequestServices.GetRequiredService<SignInManager<StaffMember>>().SignInAsync(member, isPersistent: false, "password and code");
        await OwnAccountPages.SendDoneAsync(context, by, heading, done);
    }

    /// <summary>Null: it was open too long, is somebody else's, or was changed.</summary>
    string? KeyIn(string sealedKey, string account)
    {
        try
        {
            return _seal.Unprotect(sealedKey).Split(' ') is [var id, var key] && id == account ? key : null;
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    static UserManager<StaffMember> Members(HttpContext context) => context.RequestServices.GetRequiredService<UserManager<StaffMember>>();
}
