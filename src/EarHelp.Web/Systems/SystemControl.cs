using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;

namespace EarHelp.Web.Systems;

/// <summary>What the command line may ask of a running service about the clinic's own systems.</summary>
public sealed class SystemControl(SystemAccess access)
{
    /// <summary>A system that may read. It has no token here: that is shown once.</summary>
    public sealed record Listed(string Id, string Name);

    /// <param name="Token">Shown once, and kept nowhere.</param>
    public sealed record Made(string Id, string Token);

    /// <param name="Name">Not empty.</param>
    public sealed record Wanted(string Name);

    /// <summary>Answers 200 with all of them, as <see cref="Listed"/>.</summary>
    public async Task ListAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var all = (await access.AllAsync(context.RequestAborted)).Select(a => new Listed(a.Id, a.ShownName)).ToImmutableArray();
        await context.Response.WriteAsJsonAsync(all, context.RequestAborted);
    }

    /// <summary>Takes a <see cref="Wanted"/>; answers 200 with a <see cref="Made"/>, or 400 if there is no name.</summary>
    public async Task LetReadAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (await context.Request.ReadFromJsonAsync<Wanted>(context.RequestAborted) is not { Name.Length: > 0 } wanted)
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            return;
        }

        var (account, token) = await access.LetReadAsync(Actor.Terminal, wanted.Name, context.RequestAborted);
        await context.Response.WriteAsJsonAsync(new Made(account.Id, token), context.RequestAborted);
    }

    /// <summary>Answers 200, or 404 if there is no such system.</summary>
    public async Task EndAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (!await access.EndAsync(Actor.Terminal, (string)context.Request.RouteValues["id"]!, context.RequestAborted))
            context.Response.StatusCode = StatusCodes.Status404NotFound;
    }
}
