using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Searching;
using EarHelp.Conversation.Taking;
using EarHelp.Exchange.Fhir;
using EarHelp.Storage;
using EarHelp.Storage.Backups;
using EarHelp.Web.Editions;
using EarHelp.Web.Staff;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Serving;

/// <summary>What the command line may ask of a running service. What it reads or changes of a patient stands in the audit trail before.</summary>
public sealed class Control(
    IStore whole, ITurnStore store, IKeptConversations kept, IRequestStore requests, TurnTaking taking, ServedEditions editions, IAuditTrail trail, Auditor auditor, RecordExport records,
    TimeProvider clock)
{
    /// <summary>Answers 200 with <c>{"erased":true}</c>, or 404 if there is no such conversation.</summary>
    public async Task EraseAsync(HttpContext context)
    {
        var id = IdOf(context);
        await AuditAsync(context, AuditDeed.Erased, id);
        var isErased = await store.EraseAsync(id, context.RequestAborted);
        taking.ForgetAll();
        await SayAsync(context, isErased, new { erased = isErased });
    }

    /// <summary>Answers 200 with every turn, its kept replies and those that come out now (see <see cref="Replayed.ToJson"/>), or 404.</summary>
    public async Task ReplayAsync(HttpContext context)
    {
        await AuditAsync(context, AuditDeed.ReadConversation, IdOf(context));
        var replayed = await taking.ReplayAsync(IdOf(context), context.RequestAborted);
        await SayAsync(context, !replayed.Turns.IsEmpty, replayed.ToJson());
    }

    /// <summary>Compiles the edition again; answers 200 with all faults, of which none means that it is served.</summary>
    public async Task ReloadAsync(HttpContext context)
    {
        var problems = await editions.LoadAsync(context.RequestAborted);
        await SayAsync(context, isFound: true, new { problems = problems.Select(p => p.ToString()).ToImmutableArray() });
    }

    /// <summary>Answers 200 with the <see cref="Recall"/> of a rule of an edition.</summary>
    public async Task AffectedAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        await AuditAsync(context, AuditDeed.ListedAffected, null);
        var rule = (string)context.Request.RouteValues["rule"]!;
        await SayAsync(context, isFound: true, await RecallSearch.FindAsync(kept, store, IdOf(context), rule, context.RequestAborted));
    }

    /// <summary>Answers 200 with the <see cref="Unanswered"/> messages that may be read; 404 if no edition is served.</summary>
    public async Task UnansweredAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        await AuditAsync(context, AuditDeed.ListedUnanswered, null);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var found = editions.Current is { } served
            ? await UnansweredSearch.FindAsync(kept, store, served.PhrasesOf(served.DefaultLanguage), now - Duration.FromDays(served.Edition.Clinic.WordsKeptDays), context.RequestAborted)
            : null;
        await SayAsync(context, found is not null, found);
    }

    /// <summary>Answers 200 with the requests for visits that wait (see <see cref="RequestJson"/>).</summary>
    public async Task RequestsAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        await AuditAsync(context, AuditDeed.ListedRequests, null);
        context.Response.ContentType = "application/json";
        await context.Response.Body.WriteAsync(RequestJson.Write(await WaitingRequests.FindAsync(requests, store, context.RequestAborted)), context.RequestAborted);
    }

    /// <summary>Answers 200 with the whole trail (see <see cref="AuditJson"/>).</summary>
    public async Task AuditAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        await AuditAsync(context, AuditDeed.ReadAudit, null);
        context.Response.ContentType = "application/json";
        await context.Response.Body.WriteAsync(AuditJson.Write(await trail.ReadAsync(context.RequestAborted)), context.RequestAborted);
    }

    /// <summary>Answers 200 with a backup of the whole store (see <see cref="BackupWriter"/>); an answer without its last line is none.</summary>
    public async Task BackUpAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        await AuditAsync(context, AuditDeed.BackedUp, null);
        context.Response.ContentType = "application/gzip";
        await BackupWriter.WriteAsync(whole, context.Response.Body, clock.GetUtcNow(), context.RequestAborted);
    }

    /// <summary>Answers 200 with a conversation as FHIR, 404 if there is none in which something was told, or 409 with why it cannot be written.</summary>
    public Task RecordsOfAsync(HttpContext context) => WriteRecordsAsync(context, IdOf(context), () => records.OfAsync(IdOf(context), context.RequestAborted));

    /// <summary>The same of a whole day; 400 if it is none.</summary>
    public Task RecordsOfDayAsync(HttpContext context)
    {
        if (LocalDatePattern.Iso.Parse(IdOf(context)) is { Success: true, Value: var day })
            return WriteRecordsAsync(context, null, async () => await records.OfDayAsync(day, context.RequestAborted));
        context.Response.StatusCode = StatusCodes.Status400BadRequest;
        return Task.CompletedTask;
    }

    async Task WriteRecordsAsync(HttpContext context, string? conversation, Func<Task<string?>> write)
    {
        await AuditAsync(context, AuditDeed.WroteRecords, conversation);
        try
        {
            if (await write() is { } bundle)
            {
                context.Response.ContentType = "application/fhir+json";
                await context.Response.WriteAsync(bundle, context.RequestAborted);
                return;
            }

            context.Response.StatusCode = StatusCodes.Status404NotFound;
        }
        catch (RecordsUnwritableException lacking)
        {
            context.Response.StatusCode = StatusCodes.Status409Conflict;
            await context.Response.WriteAsync(lacking.Message, context.RequestAborted);
        }
    }

    ValueTask AuditAsync(HttpContext context, AuditDeed deed, string? conversation) =>
        auditor.AddAsync(Actor.Terminal, deed, conversation, context.RequestAborted);

    static string IdOf(HttpContext context) => (string)context.Request.RouteValues["id"]!;

    static Task SayAsync<T>(HttpContext context, bool isFound, T answer)
    {
        context.Response.StatusCode = isFound ? StatusCodes.Status200OK : StatusCodes.Status404NotFound;
        return context.Response.WriteAsJsonAsync(answer, context.RequestAborted);
    }
}
