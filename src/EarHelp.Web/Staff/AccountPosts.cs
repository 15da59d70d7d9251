using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>Inviting, changing roles, giving a new one-time code, closing. There is always somebody left who administers.</summary>
public sealed class AccountPosts(StaffGate gate, IStaffStore store, AccountPages pages, Auditor auditor, FaultPages faults, TimeProvider clock)
{
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    public async Task InviteAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Administrator) is not var (by, fields))
            return;
        var name = StaffForm.ReadLine(fields[StaffForm.Name]);
        var roles = StaffForm.ReadRoles(fields);
        if (name.Length == 0 || roles.IsEmpty)
        {
            await pages.SendListAsync(context, by, name.Length == 0 ? "staff invite no name" : "staff roles none");
            return;
        }

        var account = new StaffAccount(Secret.NewIdentifier(), 0, name, roles, StaffState.Invited, Secret.NewIdentifier());
        await SendCodeAsync(context, by, account);
    }

    public async Task ChangeRolesAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not var (by, fields, account) || await IsElsewhereAsync(context, account))
            return;
        var roles = StaffForm.ReadRoles(fields);
        if (roles.IsEmpty || await LeavesNobodyAsync(account, account with { Roles = roles }, context.RequestAborted))
            await pages.SendOneAsync(context, by, roles.IsEmpty ? "staff roles none" : "staff last administrator");
        else
            await PutAsync(context, by, account with { Roles = roles }, AuditDeed.RolesChanged);
    }

    /// <summary>For who has lost everything: the old password, one-time codes and passkeys count no more.</summary>
    public async Task InviteAgainAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not var (by, _, account) || await IsElsewhereAsync(context, account))
            return;
        var without = OneTimeInvitation.WithoutAll(account);
        if (await LeavesNobodyAsync(account, without, context.RequestAborted))
            await pages.SendOneAsync(context, by, "staff last administrator");
        else
            await SendCodeAsync(context, by, without);
    }

    public async Task CloseAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not var (by, _, account))
            return;
        var closed = account with
        {
            State = StaffState.Closed,
            PasswordHash = null,
            SealedCodeKey = null,
            Passkeys = [],
            Invitation = null,
            Stamp = Secret.NewIdentifier(),
        };
        if (await LeavesNobodyAsync(account, closed, context.RequestAborted))
            await pages.SendOneAsync(context, by, "staff last administrator");
        else
            await PutAsync(context, by, closed, AuditDeed.AccountClosed);
    }

    async Task SendCodeAsync(HttpContext context, SignedIn by, StaffAccount account)
    {
        var (invited, code) = OneTimeInvitation.For(account with { Version = account.Version + 1 }, Now);
        await auditor.AddAboutAccountAsync(by.Account.Id, AuditDeed.Invited, account.Id, context.RequestAborted);
        if (await store.PutAsync(invited, context.RequestAborted) == StaffPut.Kept)
            await PageResponse.SendAsync(context, AccountPages.WriteCode(by, account.ShownName, code, by.Words.Letter.Moment(invited.Invitation!.Until)));
        else
            await pages.SendOneAsync(context, by, "staff changed meanwhile");
    }

    async Task PutAsync(HttpContext context, SignedIn by, StaffAccount account, AuditDeed deed)
    {
        await auditor.AddAboutAccountAsync(by.Account.Id, deed, account.Id, context.RequestAborted);
        if (await store.PutAsync(account with { Version = account.Version + 1 }, context.RequestAborted) == StaffPut.Kept)
            await PageResponse.GoToAsync(context, $"{StaffParts.Prefix}/accounts/{account.Id}");
        else
            await pages.SendOneAsync(context, by, "staff changed meanwhile");
    }

    async Task<bool> LeavesNobodyAsync(StaffAccount account, StaffAccount changed, CancellationToken cancellation) =>
        account.Has(StaffRole.Administrator) && !changed.Has(StaffRole.Administrator)
        && !(await store.AllAsync(cancellation)).Any(a => a.Id != account.Id && a.Has(StaffRole.Administrator));

    /// <summary>True if the clinic's own provider says the roles and holds the password, and then the form is refused.</summary>
    async Task<bool> IsElsewhereAsync(HttpContext context, StaffAccount account)
    {
        if (account.IsFromProvider)
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
        return account.IsFromProvider;
    }

    async Task<(SignedIn By, IFormCollection Fields, StaffAccount Account)?> OpenAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Administrator) is not var (by, fields))
            return null;
        if (await store.FindAsync((string)context.Request.RouteValues["id"]!, context.RequestAborted) is { State: not StaffState.Closed, TokenHash: null } account)
            return (by, fields, account);
        await faults.SendAsync(context, StatusCodes.Status404NotFound);
        return null;
    }
}
