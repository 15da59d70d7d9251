using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Desk;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace EarHelp.Web.Staff;

/// <summary>
/// Lets only members of staff with a right role through. The account is looked up each time, so that a role that was taken away, or an
/// account that was closed, counts at once.
/// </summary>
public sealed class StaffGate(
    IStaffStore store, ServedEditions editions, FaultPages faults, IAntiforgery antiforgery, IOptions<IdentityOptions> identity, EscalatedNow escalated)
{
    /// <summary>For a page that is read.</summary>
    /// <param name="roles">Any of them is enough; none: any account.</param>
    /// <returns>Null if it was refused, and then that has been said.</returns>
    public async Task<SignedIn?> ReadAsync(HttpContext context, params StaffRole[] roles)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (editions.Current is not { } served)
        {
            await faults.SendEmergencyAsync(context, isNotSaved: false);
            return null;
        }

        var words = Words.First(served);
        if (await AccountOfAsync(context) is not { } account)
        {
            await PageResponse.GoToAsync(context, StaffParts.Prefix + "/sign-in");
            return null;
        }

        var reader = new SignedIn(account, words, TokenFor(context), escalated.CountFor(account));
        if (roles.Length == 0 || roles.Any(account.Has))
            return reader;
        await PageResponse.SendAsync(context, StaffFrame.WriteRefused(reader), StatusCodes.Status403Forbidden);
        return null;
    }

    /// <summary>For a form that was sent.</summary>
    /// <returns>Null if it was refused, and then that has been said.</returns>
    public async Task<(SignedIn By, IFormCollection Fields)?> TakeAsync(HttpContext context, params StaffRole[] roles)
    {
        // The token of a form belongs to who is signed in: that is looked up first.
        await AccountOfAsync(context);
        return await FieldsAsync(context) is { } fields && await ReadAsync(context, roles) is { } by ? (by, fields) : null;
    }

    /// <summary>The fields of a form that came from a page of ours in this browser; null if it did not, and then that has been said.</summary>
    internal async Task<IFormCollection?> FieldsAsync(HttpContext context)
    {
        if (context.Request.HasFormContentType && FormToken.IsSameSite(context.Request) && await antiforgery.IsRequestValidAsync(context))
            return await context.Request.ReadFormAsync(context.RequestAborted);
        await faults.SendAsync(context, StatusCodes.Status400BadRequest);
        return null;
    }

    /// <summary>The words of a page for who has not signed in; null if there are none, and then that has been said.</summary>
    internal async Task<Words?> WordsAsync(HttpContext context)
    {
        if (editions.Current is { } served)
            return Words.First(served);
        await faults.SendEmergencyAsync(context, isNotSaved: false);
        return null;
    }

    internal string TokenFor(HttpContext context) => antiforgery.GetAndStoreTokens(context).RequestToken!;

    /// <summary>The open account that this browser is signed in to, or null.</summary>
    internal async Task<StaffAccount?> AccountOfAsync(HttpContext context)
    {
        var ticket = await context.AuthenticateAsync(IdentityConstants.ApplicationScheme);
        var claims = identity.Value.ClaimsIdentity;
        if (ticket.Principal?.FindFirst(claims.UserIdClaimType)?.Value is not { } id
            || await store.FindAsync(id, context.RequestAborted) is not { State: StaffState.Open } account
            || ticket.Principal.FindFirst(claims.SecurityStampClaimType)?.Value != account.Stamp)
            return null;
        context.User = ticket.Principal;
        return account;
    }
}

/// <param name="Token">For the forms of the page.</param>
/// <param name="Escalated">How many requests that nobody answered in time go to this person.</param>
public sealed record SignedIn(StaffAccount Account, Words Words, string Token, int Escalated);
