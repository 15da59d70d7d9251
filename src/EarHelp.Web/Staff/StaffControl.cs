using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;

namespace EarHelp.Web.Staff;

/// <summary>What the command line may ask of a running service about accounts of staff.</summary>
public sealed class StaffControl(IStaffStore store, StaffReturn way)
{
    /// <param name="SignsInAs">Empty until the person has joined.</param>
    public sealed record Listed(string Id, string Name, string SignsInAs, ImmutableArray<string> Roles, string State)
    {
        public static Listed Of(StaffAccount account)
        {
            ArgumentNullException.ThrowIfNull(account);
            return new Listed(account.Id, account.ShownName, account.SignInName, [.. account.Roles.Select(r => $"{r}")], $"{account.State}");
        }
    }

    /// <param name="Code">Shown once, and kept nowhere.</param>
    public sealed record Made(string Code);

    /// <summary>Answers 200 with all accounts of people, as <see cref="Listed"/>.</summary>
    public async Task ListAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var all = (await store.AllAsync(context.RequestAborted)).Where(a => !a.Roles.Contains(StaffRole.System)).Select(Listed.Of).ToImmutableArray();
        await context.Response.WriteAsJsonAsync(all, context.RequestAborted);
    }

    /// <summary>Answers 200 with a <see cref="Made"/>, or 404 if there is no such account.</summary>
    public async Task MakeCodeAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (await way.MakeCodeAsync((string)context.Request.RouteValues["id"]!, context.RequestAborted) is { } code)
            await context.Response.WriteAsJsonAsync(new Made(code), context.RequestAborted);
        else
            context.Response.StatusCode = StatusCodes.Status404NotFound;
    }
}
