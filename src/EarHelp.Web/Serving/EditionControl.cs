using System.Text;
using System.Text.Json;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Web.Editions;
using Microsoft.AspNetCore.Http.Features;

namespace EarHelp.Web.Serving;

/// <summary>What the command line may ask of a running service about editions.</summary>
public sealed class EditionControl(LedgerInForce ledger, IEditionLedger kept, EditionDeeds deeds, IEditionArchive archive, ServedEditions editions)
{
    const long LargestPackBytes = 16 * 1024 * 1024;

    /// <summary>What is asked to be done.</summary>
    /// <param name="After">Hash of the last record that the sender knows; empty: none.</param>
    public sealed record DeedAfter(string After, JsonElement Deed);

    /// <summary>Answers 200 with <c>{"edition":ID}</c>, the one that is served now, or null.</summary>
    public Task ReadServedAsync(HttpContext context) =>
        context.Response.WriteAsJsonAsync(new { edition = editions.Current?.Edition.Id }, context.RequestAborted);

    /// <summary>Answers 200 with all <see cref="ChainedRecord"/>s in order; 423 with what is wrong with a damaged ledger.</summary>
    public async Task ReadLedgerAsync(HttpContext context)
    {
        if (ledger.Damage is { } damage)
            await SayAsync(context, StatusCodes.Status423Locked, damage);
        else
            await context.Response.WriteAsJsonAsync(await kept.ReadAsync(context.RequestAborted), context.RequestAborted);
    }

    /// <summary>
    /// Takes a <see cref="DeedAfter"/>, looks whether it holds, adds it to the ledger and carries it out. Answers 200; 409 if another came
    /// first; 403 with the reason for which it is not taken; 422 with the faults if it cannot be served; 400 if it cannot be read.
    /// </summary>
    public async Task AppendAsync(HttpContext context)
    {
        AddedDeed added;
        try
        {
            var sent = await context.Request.ReadFromJsonAsync<DeedAfter>(context.RequestAborted) ?? throw new JsonException("Nothing was sent.");
            added = await deeds.AddAsync(Ledger.ReadDeed(Encoding.UTF8.GetBytes(sent.Deed.GetRawText())), sent.After, context.RequestAborted);
        }
        catch (Exception unreadable) when (unreadable is JsonException or InvalidOperationException)
        {
            await SayAsync(context, StatusCodes.Status400BadRequest, unreadable.Message);
            return;
        }

        await (added switch
        {
            AddedDeed.Added => SayAsync(context, StatusCodes.Status200OK, string.Empty),
            AddedDeed.Stale => SayAsync(context, StatusCodes.Status409Conflict, string.Empty),
            AddedDeed.Refused refused => SayAsync(context, StatusCodes.Status403Forbidden, refused.Why),
            AddedDeed.Faulty faulty => SayAsync(context, StatusCodes.Status422UnprocessableEntity, string.Join('\n', faulty.Problems)),
            _ => throw new System.Diagnostics.UnreachableException(),
        });
    }

    /// <summary>Answers 200 with the packed sources, or 404.</summary>
    public async Task FindAsync(HttpContext context)
    {
        if (await archive.FindAsync(IdOf(context), context.RequestAborted) is { } pack)
            await context.Response.Body.WriteAsync(pack, context.RequestAborted);
        else
            context.Response.StatusCode = StatusCodes.Status404NotFound;
    }

    /// <summary>Keeps packed sources, so that they can be signed and published; answers 200, or 422 if they are not that edition.</summary>
    public async Task KeepAsync(HttpContext context)
    {
        context.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = LargestPackBytes;
        using var sent = new MemoryStream();
        await context.Request.Body.CopyToAsync(sent, context.RequestAborted);
        var pack = sent.ToArray();
        if (EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.Plain).Edition?.Id != IdOf(context))
            await SayAsync(context, StatusCodes.Status422UnprocessableEntity, "these files are another edition, or have faults.");
        else
            await archive.KeepAsync(IdOf(context), pack, context.RequestAborted);
    }

    static Task SayAsync(HttpContext context, int status, string words)
    {
        context.Response.StatusCode = status;
        return context.Response.WriteAsync(words, context.RequestAborted);
    }

    static string IdOf(HttpContext context) => (string)context.Request.RouteValues["id"]!;
}
