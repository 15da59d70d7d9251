using System.Text.Json;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Editions;
using Microsoft.AspNetCore.Http.Features;

namespace EarHelp.Web.Serving;

/// <summary>What the command line may ask of a running service about editions.</summary>
public sealed class EditionControl(IEditionLedger ledger, IEditionArchive archive, ServedEditions editions)
{
    const long LargestPackBytes = 16 * 1024 * 1024;

    /// <summary>Answers 200 with all <see cref="LedgerRecord"/>s in order.</summary>
    public async Task ReadLedgerAsync(HttpContext context) =>
        await context.Response.WriteAsJsonAsync(await ledger.ReadAsync(context.RequestAborted), context.RequestAborted);

    /// <summary>
    /// Adds a <see cref="LedgerRecord"/> and carries it out. Answers 200; 409 if another came first; 403 if what is to be published is
    /// not signed; 422 with the faults if it cannot be served.
    /// </summary>
    public async Task AppendAsync(HttpContext context)
    {
        LedgerRecord? record;
        try
        {
            record = await context.Request.ReadFromJsonAsync<LedgerRecord>(context.RequestAborted);
        }
        catch (JsonException)
        {
            record = null;
        }

        if (record is null)
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            return;
        }

        var added = await editions.AddAsync(record, context.RequestAborted);
        context.Response.StatusCode = added switch
        {
            AddedDeed.Added => StatusCodes.Status200OK,
            AddedDeed.Stale => StatusCodes.Status409Conflict,
            AddedDeed.NotSigned => StatusCodes.Status403Forbidden,
            _ => StatusCodes.Status422UnprocessableEntity,
        };
        if (added is AddedDeed.Faulty faulty)
            await context.Response.WriteAsync(string.Join('\n', faulty.Problems), context.RequestAborted);
    }

    /// <summary>Answers 200 with the packed sources, or 404.</summary>
    public async Task FindAsync(HttpContext context)
    {
        if (await archive.FindAsync(IdOf(context), context.RequestAborted) is { } pack)
            await context.Response.Body.WriteAsync(pack, context.RequestAborted);
        else
            context.Response.StatusCode = StatusCodes.Status404NotFound;
    }

    /// <summary>Keeps packed sources, so that they can be signed and published; answers 200.</summary>
    public async Task KeepAsync(HttpContext context)
    {
        context.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = LargestPackBytes;
        using var pack = new MemoryStream();
        await context.Request.Body.CopyToAsync(pack, context.RequestAborted);
        await archive.KeepAsync(IdOf(context), pack.ToArray(), context.RequestAborted);
    }

    static string IdOf(HttpContext context) => (string)context.Request.RouteValues["id"]!;
}
