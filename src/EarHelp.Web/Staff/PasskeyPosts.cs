using EarHelp.Clinic.Auditing;
using EarHelp.Web.Pages;
using Microsoft.AspNetCore.Identity;

namespace EarHelp.Web.Staff;

/// <summary>Making, using and removing passkeys (Web Authentication, as ASP.NET Core Identity does it).</summary>
public sealed class PasskeyPosts(StaffGate gate, SignInPages signIn, Auditor auditor, FaultPages faults)
{
    /// <summary>What a browser needs to ask for a passkey.</summary>
    public async Task RequestAsync(HttpContext context)
    {
        if (await gate.FieldsAsync(context) is not null)
            await SendJsonAsync(context, await SignIn(context).MakePasskeyRequestOptionsAsync(null));
    }

    public async Task SignInAsync(HttpContext context)
    {
        if (await gate.FieldsAsync(context) is not { } fields)
            return;
        var shown = await SignIn(context).PerformPasskeyAssertionAsync(fields[StaffForm.Credential].ToString());
        var members = Members(context);
        if (shown.Succeeded && await SignInPages.MaySignInAsync(members, shown.User)
            && (await members.AddOrUpdatePasskeyAsync(shown.User, shown.Passkey)).Succeeded)
        {
            await signIn.SignInAsync(context, shown.User, "passkey");
            return;
        }

        await auditor.AddAsync(shown.User?.Account.Id ?? Actor.Service, AuditDeed.SignInRefused, null, context.RequestAborted);
        await faults.SendAsync(context, StatusCodes.Status400BadRequest);
    }

    /// <summary>What a browser needs to make a passkey for who is signed in.</summary>
    public async Task CreationAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, _))
            return;
        var entity = new PasskeyUserEntity { Id = by.Account.Id, Name = by.Account.SignInName, DisplayName = by.Account.ShownName };
        await SendJsonAsync(context, await SignIn(context).MakePasskeyCreationOptionsAsync(entity));
    }

    public async Task AddAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, fields))
            return;
        var made = await SignIn(context).PerformPasskeyAttestationAsync(fields[StaffForm.Credential].ToString());
        if (made.Succeeded && made.UserEntity.Id == by.Account.Id && !by.Account.IsFromProvider
            && (await Members(context).AddOrUpdatePasskeyAsync(new StaffMember(by.Account), made.Passkey)).Succeeded)
        {
            await auditor.AddAboutAccountAsync(by.Account.Id, AuditDeed.PasskeyAdded, by.Account.Id, context.RequestAborted);
            await PageResponse.GoToAsync(context, StaffParts.Prefix + "/me");
        }
        else
        {
            await faults.SendAsync(context, StatusCodes.Status400BadRequest);
        }
    }

    public async Task RemoveAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context) is not var (by, fields))
            return;
        var id = fields[StaffForm.Credential].ToString();
        if (by.Account.Passkeys.Any(p => p.Id == id))
        {
            await Members(context).RemovePasskeyAsync(new StaffMember(by.Account), Convert.FromBase64String(id));
            await auditor.AddAboutAccountAsync(by.Account.Id, AuditDeed.PasskeyRemoved, by.Account.Id, context.RequestAborted);
        }

        await PageResponse.GoToAsync(context, StaffParts.Prefix + "/me");
    }

    /// <summary>
    /// True if the browser says that the passkey was asked for by this very site, in no frame. The request's own header Origin says "null"
    /// with a form of a page that sends no referrer.
    /// </summary>
    internal static bool IsOwnOrigin(HttpContext context, string origin, bool isCrossOrigin) =>
        !isCrossOrigin && string.Equals(origin, $"{context.Request.Scheme}://{context.Request.Host}", StringComparison.OrdinalIgnoreCase);

    static UserManager<StaffMember> Members(HttpContext context) => context.RequestServices.GetRequiredService<UserManager<StaffMember>>();

    static SignInManager<StaffMember> SignIn(HttpContext context) => context.RequestServices.GetRequiredService<SignInManager<StaffMember>>();

    static Task SendJsonAsync(HttpContext context, string json)
    {
        context.Response.ContentType = "application/json";
        return context.Response.WriteAsync(json, context.RequestAborted);
    }
}
