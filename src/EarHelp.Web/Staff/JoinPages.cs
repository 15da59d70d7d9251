using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using Microsoft.AspNetCore.Identity;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>
/// Taking an invitation: the one-time code, a name, a password; then the key of the one-time codes, which counts once the person has shown that
/// it works. Until then nobody can sign in, and the invitation stays.
/// </summary>
public sealed class JoinPages(StaffGate gate, IStaffStore store, FirstAccount first, Auditor auditor, TimeProvider clock)
{
    const string OwnName = "own-name";

    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task ReadAsync(HttpContext context)
    {
        if (await gate.WordsAsync(context) is { } words)
            await SendFormAsync(context, words, new Joining("", "", ""), null);
    }

    public async Task JoinAsync(HttpContext context)
    {
        if (await gate.WordsAsync(context) is not { } words || await gate.FieldsAsync(context) is not { } fields)
            return;
        var typed = new Joining(
            StaffForm.ReadLine(fields[StaffForm.Code]), StaffForm.ReadLine(fields[OwnName]), StaffMembers.Plain(StaffForm.ReadLine(fields[StaffForm.Name])));
        if (await InvitedAsync(typed.Code, context.RequestAborted) is not { } member)
        {
            await SendFormAsync(context, words, typed, "staff join code wrong");
            return;
        }

        var members = Members(context);
        var password = fields[StaffForm.Password].ToString();
        var shown = typed.OwnName.Length > 0 ? typed.OwnName : member.Account.ShownName;
        if (shown.Length == 0 || await FaultOfPasswordAsync(members, member, password) is { } tooShort)
        {
            await SendFormAsync(context, words, typed, shown.Length == 0 ? "staff join own name missing" : "staff join password short");
            return;
        }

        var key = members.GenerateNewAuthenticatorKey();
        member.Account = member.Account with
        {
            SignInName = typed.Name,
            ShownName = shown,
            PasswordHash = members.PasswordHasher.HashPassword(member, password),
            Stamp = Secret.NewIdentifier(),
            Passkeys = [],
        };
        await context.RequestServices.GetRequiredService<StaffMembers>().SetAuthenticatorKeyAsync(member, key, context.RequestAborted);
        var kept = await members.UpdateAsync(member);
        if (kept.Succeeded)
            await SendKeyAsync(context, words, typed.Code, shown, key, null);
        else
            await SendFormAsync(context, words, typed, kept.Errors.Any(e => e.Code == nameof(IdentityErrorDescriber.DuplicateUserName)) ? "staff join name taken" : "staff join name wrong");
    }

    /// <summary>The first one-time code was typed: the account is open, and the invitation is used up.</summary>
    public async Task ConfirmAsync(HttpContext context)
    {
        if (await gate.WordsAsync(context) is not { } words || await gate.FieldsAsync(context) is not { } fields)
            return;
        var invitation = StaffForm.ReadLine(fields["invitation"]);
        var members = Members(context);
        if (await InvitedAsync(invitation, context.RequestAborted) is not { Account: { PasswordHash: not null, SealedCodeKey: not null } } member)
        {
            await SendFormAsync(context, words, new Joining("", "", ""), "staff join code wrong");
            return;
        }

        var digits = string.Concat(fields[StaffForm.Code].ToString().Where(char.IsAsciiDigit));
        if (!await members.VerifyTwoFactorTokenAsync(member, TokenOptions.DefaultAuthenticatorProvider, digits))
        {
            var key = await members.GetAuthenticatorKeyAsync(member);
            await SendKeyAsync(context, words, invitation, member.Account.ShownName, key!, "staff join one-time wrong");
            return;
        }

        member.Account = member.Account with { State = StaffState.Open, Invitation = null, SpentCode = digits, Failures = 0, LockedUntil = null };
        if ((await members.UpdateAsync(member)).Succeeded)
            await auditor.AddAboutAccountAsync(member.Account.Id, AuditDeed.Joined, member.Account.Id, context.RequestAborted);
        await PageResponse.GoToAsync(context, StaffParts.Prefix + "/sign-in");
    }

    static UserManager<StaffMember> Members(HttpContext context) => context.RequestServices.GetRequiredService<UserManager<StaffMember>>();

    internal static async Task<string?> FaultOfPasswordAsync(UserManager<StaffMember> members, StaffMember member, string password)
    {
        foreach (var rule in members.PasswordValidators)
        {
            if (await rule.ValidateAsync(members, member, password) is { Succeeded: false } failed)
                return failed.Errors.First().Code;
        }

        return null;
    }

    async Task<StaffMember?> InvitedAsync(string typed, CancellationToken cancellation)
    {
        if (ReceiptCode.Read(typed) is not { } code)
            return null;
        var hash = Secret.HashOf(code);
        var account = (await store.AllAsync(cancellation)).FirstOrDefault(a => a.State != StaffState.Closed && a.Invitation is { } i && i.Hash == hash && Now < i.Until)
            ?? await first.MakeAsync(code, Now + OneTimeInvitation.ValidFor, cancellation);
        return account is null ? null : new StaffMember(account);
    }

    Task SendFormAsync(HttpContext context, Words words, Joining typed, string? fault)
    {
        var token = gate.TokenFor(context);
        var page = StaffFrame.Write(words, words["staff join"], html =>
        {
            html.Element("h1"u8, words["staff join"]);
            StaffForm.WriteFault(html, words, fault);
            StaffForm.Begin(html, StaffParts.Prefix + "/join", token);
            StaffForm.WriteLine(html, words, StaffForm.Code, "staff join code", "text", "off", typed.Code, "staff join code hint");
            StaffForm.WriteLine(html, words, OwnName, "staff join own name", "text", "name", typed.OwnName, "staff join own name hint");
            StaffForm.WriteLine(html, words, StaffForm.Name, "staff name", "text", "username", typed.Name, "staff join name hint");
            StaffForm.WriteLine(html, words, StaffForm.Password, "staff password", "password", "new-password", hint: "staff join password hint");
            StaffForm.End(html, words, "staff join button");
        });
        return PageResponse.SendAsync(context, page, fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }

    Task SendKeyAsync(HttpContext context, Words words, string invitation, string who, string key, string? fault)
    {
        var token = gate.TokenFor(context);
        var page = StaffFrame.Write(words, words["staff key heading"], html =>
        {
            html.Element("h1"u8, words["staff key heading"]);
            StaffForm.WriteFault(html, words, fault);
            CodeKeyParts.Write(html, words, who, key);
            StaffForm.Begin(html, StaffParts.Prefix + "/join/confirm", token).Markup("<input type=\"hidden\" name=\"invitation\""u8).Attribute("value"u8, invitation).Markup(">"u8);
            StaffForm.WriteLine(html, words, StaffForm.Code, "staff code", "text", "one-time-code", hint: "staff code hint");
            StaffForm.End(html, words, "staff key button");
        });
        return PageResponse.SendAsync(context, page, fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }

    sealed record Joining(string Code, string OwnName, string Name);
}
