using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Pages;
using EarHelp.Web.Provider;
using EarHelp.Web.Turns;
using Microsoft.AspNetCore.Identity;

namespace EarHelp.Web.Staff;

/// <summary>Signing in with a password and a one-time code, and signing out.</summary>
public sealed class SignInPages(StaffGate gate, BeginGate oneAtATime, Auditor auditor, ProviderSettings? provider = null)
{
    /// <summary>What a password is compared with when there is no such account, so that the answer takes as long.</summary>
    string? _nobodysHash;

    public async Task ReadAsync(HttpContext context)
    {
        if (await gate.WordsAsync(context) is not { } words)
            return;
        if (await gate.AccountOfAsync(context) is not null)
            await PageResponse.GoToAsync(context, StaffParts.Prefix);
        else
            await SendFormAsync(context, words, string.Empty, fault: null);
    }

    /// <summary>One try at a time for an account, so that tries side by side are counted too.</summary>
    public async Task SignInAsync(HttpContext context)
    {
        if (await gate.WordsAsync(context) is not { } words || await gate.FieldsAsync(context) is not { } fields)
            return;
        var name = StaffMembers.Plain(fields[StaffForm.Name]);
        using var turn = await oneAtATime.EnterAsync("staff:" + name, context.RequestAborted);
        var members = context.RequestServices.GetRequiredService<UserManager<StaffMember>>();
        var member = await members.FindByNameAsync(name);
        if (member is not null && await IsRightAsync(members, member, fields[StaffForm.Password].ToString(), fields[StaffForm.Code].ToString()))
        {
            await SignInAsync(context, member, "password and code");
            return;
        }

        if (member is null)
            CompareWithNobody(members, fields[StaffForm.Password].ToString());
        await auditor.AddAsync(member?.Account.Id ?? Actor.Service, AuditDeed.SignInRefused, null, context.RequestAborted);
        await SendFormAsync(context, words, name, "staff sign in wrong");
    }

    public async Task SignOutAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, _))
            return;
        await auditor.AddAsync(by.Account.Id, AuditDeed.SignedOut, null, context.RequestAborted);
        await context.RequestServices.GetRequiredService<SignInManager<StaffMember>>().SignOutAsync();
        await PageResponse.GoToAsync(context, StaffParts.Prefix + "/sign-in");
    }

    /// <summary>The person has shown who they are: from now on this browser is theirs.</summary>
    /// <param name="by">The way, as the cookie says it.</param>
    internal async Task SignInAsync(HttpContext context, StaffMember member, string by)
    {
        await auditor.AddAsync(member.Account.Id, AuditDeed.SignedIn, null, context.RequestAborted);
        await context.RequestServices.GetRequiredService<SignInManager<StaffMember>>().SignInAsync(member, isPersistent: false, by);
        await PageResponse.GoToAsync(context, StaffParts.Prefix);
    }

    /// <summary>True if who is signed in has shown again who they are. A wrong try counts as one of signing in does.</summary>
    internal async Task<bool> IsShownAgainAsync(HttpContext context, StaffMember member, IFormCollection fields)
    {
        using var turn = await oneAtATime.EnterAsync("staff:" + member.Account.SignInName, context.RequestAborted);
        var members = context.RequestServices.GetRequiredService<UserManager<StaffMember>>();
        if (await members.FindByIdAsync(member.Account.Id) is { } now
            && await IsRightAsync(members, now, fields[StaffForm.Password].ToString(), fields[StaffForm.Code].ToString()))
        {
            member.Account = now.Account;
            return true;
        }

        await auditor.AddAsync(member.Account.Id, AuditDeed.SignInRefused, null, context.RequestAborted);
        return false;
    }

    internal static async Task<bool> MaySignInAsync(UserManager<StaffMember> members, StaffMember member) =>
        member.Account.State == StaffState.Open && !await members.IsLockedOutAsync(member);

    /// <summary>A wrong try is counted, and a code is spent: neither is taken unless that is kept.</summary>
    static async Task<bool> IsRightAsync(UserManager<StaffMember> members, StaffMember member, string password, string code)
    {
        var isPassword = await members.CheckPasswordAsync(member, password);
        if (!await MaySignInAsync(members, member))
            return false;
        var digits = string.Concat(code.Where(char.IsAsciiDigit));
        var isCode = digits != member.Account.SpentCode && await members.VerifyTwoFactorTokenAsync(member, TokenOptions.DefaultAuthenticatorProvider, digits);
        if (!isPassword || !isCode)
        {
            await members.AccessFailedAsync(member);
            return false;
        }

        member.Account = member.Account with { SpentCode = digits, Failures = 0 };
        return (await members.UpdateAsync(member)).Succeeded;
    }

    void CompareWithNobody(UserManager<StaffMember> members, string password)
    {
        var nobody = new StaffMember(new StaffAccount(string.Empty, 0, string.Empty, [], StaffState.Closed, string.Empty));
        _nobodysHash ??= members.PasswordHasher.HashPassword(nobody, Security.Secret.New());
        members.PasswordHasher.VerifyHashedPassword(nobody, _nobodysHash, password);
    }

    Task SendFormAsync(HttpContext context, Words words, string name, string? fault)
    {
        var token = gate.TokenFor(context);
        var page = StaffFrame.Write(words, words["staff sign in"], html =>
        {
            html.Element("h1"u8, words["staff sign in"]);
            StaffForm.WriteFault(html, words, fault);
            if (provider is not null)
                ProviderPages.WriteWay(html, words);
            PasskeyForms.WriteSignIn(html, words, token);
            StaffForm.Begin(html, StaffParts.Prefix + "/sign-in", token);
            StaffForm.WriteLine(html, words, StaffForm.Name, "staff name", "text", "username", name);
            StaffForm.WriteLine(html, words, StaffForm.Password, "staff password", "password", "current-password");
            StaffForm.WriteLine(html, words, StaffForm.Code, "staff code", "text", "one-time-code", hint: "staff code hint");
            StaffForm.End(html, words, "staff sign in button");
            html.Markup("<p><a href=\"/staff/join\">"u8).Text(words["staff join link"]).Markup("</a></p>"u8);
        });
        return PageResponse.SendAsync(context, page, fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }
}
