using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Keeping;
using EarHelp.Exchange.Fhir;
using EarHelp.Web.Staff;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Systems;

/// <summary>What the clinic's own systems may read, as <c>openapi.json</c> describes it. Each reading stands in the audit trail before it is answered.</summary>
public sealed partial class SystemApi(
    SystemGate gate, IRequestStore requests, ITurnStore turns, IVisitStore visits, RecordExport records, Auditor auditor, TimeProvider clock)
{
    public const string Prefix = "/api/clinic";

    const string JsonType = "application/json";
    const string FhirType = "application/fhir+json; fhirVersion=4.0";

    const int DefaultLimit = 50;
    const int LargestLimit = 200;

    static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    static readonly byte[] Description = ReadDescription();

    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    internal static bool IsAsked(HttpContext context) => context.Request.Path.StartsWithSegments(Prefix, StringComparison.OrdinalIgnoreCase);

    internal void Map(WebApplication app)
    {
        app.MapGet(Prefix + "/openapi.json", DescribeAsync);
        app.MapGet(Prefix + "/requests", RequestsAsync);
        app.MapGet(Prefix + "/requests/{id}", RequestAsync);
        app.MapGet(Prefix + "/visits", VisitsAsync);
        app.MapGet(Prefix + "/visits/{id}", VisitAsync);
        app.MapGet(Prefix + "/records/of/{id}", RecordsOfAsync);
        app.MapGet(Prefix + "/records/day/{id}", RecordsOfDayAsync);
    }

    /// <summary>Needs no token: it says nothing of anybody.</summary>
    static Task DescribeAsync(HttpContext context) => SystemAnswer.SendAsync(context, JsonType, Description, Description);

    async Task RequestsAsync(HttpContext context)
    {
        if (await OpenAsync(context, AuditDeed.ListedRequests, null) && LimitOf(context) is var limit && await SaidAsync(context, limit is null, SystemProblem.WrongLimit))
        {
            var waiting = await WaitingRequests.FindAsync(requests, turns, context.RequestAborted);
            await SendPageAsync(context, waiting.Select(k => ReadRequest.Of(k, Now)), r => r.Conversation, limit!.Value);
        }
    }

    async Task RequestAsync(HttpContext context)
    {
        if (!await OpenAsync(context, AuditDeed.ReadConversation, IdOf(context)))
            return;
        var found = await WaitingRequests.FindOneAsync(requests, turns, IdOf(context), context.RequestAborted);
        if (await SaidAsync(context, found is null, SystemProblem.NoSuchConversation, StatusCodes.Status404NotFound))
            await SendAsync(context, ReadRequest.Of(found!, Now));
    }

    async Task VisitsAsync(HttpContext context)
    {
        if (await OpenAsync(context, AuditDeed.ListedVisits, null) && LimitOf(context) is var limit && await SaidAsync(context, limit is null, SystemProblem.WrongLimit))
            await SendPageAsync(context, (await visits.AllAsync(context.RequestAborted)).Select(ReadVisit.Of), v => v.Conversation, limit!.Value);
    }

    async Task VisitAsync(HttpContext context)
    {
        if (!await OpenAsync(context, AuditDeed.ReadConversation, IdOf(context)))
            return;
        var found = await visits.FindAsync(IdOf(context), context.RequestAborted);
        if (await SaidAsync(context, found is null, SystemProblem.NoSuchConversation, StatusCodes.Status404NotFound))
            await SendAsync(context, ReadVisit.Of(found!));
    }

    async Task RecordsOfAsync(HttpContext context)
    {
        if (await OpenAsync(context, AuditDeed.WroteRecords, IdOf(context)))
            await SendBundleAsync(context, () => records.OfAsync(IdOf(context), context.RequestAborted));
    }

    async Task RecordsOfDayAsync(HttpContext context)
    {
        var day = LocalDatePattern.Iso.Parse(IdOf(context));
        if (await OpenAsync(context, AuditDeed.WroteRecords, null) && await SaidAsync(context, !day.Success, SystemProblem.WrongDay))
            await SendBundleAsync(context, async () => await records.OfDayAsync(day.Value, context.RequestAborted));
    }

    static async Task SendBundleAsync(HttpContext context, Func<Task<string?>> write)
    {
        try
        {
            if (await write() is { } bundle)
                await SystemAnswer.SendAsync(context, FhirType, Encoding.UTF8.GetBytes(bundle), Encoding.UTF8.GetBytes(WrittenAt().Replace(bundle, "", 1)));
            else
                await SystemProblem.SendAsync(context, StatusCodes.Status404NotFound, SystemProblem.NoSuchConversation);
        }
        catch (RecordsUnwritableException lacking)
        {
            await SystemProblem.SendAsync(context, StatusCodes.Status409Conflict, lacking.Message);
        }
    }

    /// <summary>In the order of identifiers, so that a page that is asked for later begins where the one before ended, whatever came in between.</summary>
    static Task SendPageAsync<T>(HttpContext context, IEnumerable<T> all, Func<T, string> idOf, int limit)
    {
        var after = context.Request.Query["after"].ToString();
        var page = all.Where(i => string.CompareOrdinal(idOf(i), after) > 0).OrderBy(idOf, StringComparer.Ordinal).Take(limit + 1).ToImmutableArray();
        var isLast = page.Length <= limit;
        ImmutableArray<T> items = isLast ? page : page[..limit];
        return SendAsync(context, new { items, next = isLast ? null : idOf(items[^1]) });
    }

    static Task SendAsync<T>(HttpContext context, T answer)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(answer, Json);
        return SystemAnswer.SendAsync(context, JsonType, body, body);
    }

    /// <summary>Null: it is none.</summary>
    static int? LimitOf(HttpContext context)
    {
        var written = context.Request.Query["limit"].ToString();
        return written.Length == 0 ? DefaultLimit
            : int.TryParse(written, NumberStyles.None, CultureInfo.InvariantCulture, out var limit) && limit is > 0 and <= LargestLimit ? limit
            : null;
    }

    /// <summary>False if it was refused, and then that has been said.</summary>
    async Task<bool> OpenAsync(HttpContext context, AuditDeed deed, string? conversation)
    {
        if (await gate.OpenAsync(context) is not { } system)
            return false;
        await auditor.AddAsync(system.Id, deed, conversation, context.RequestAborted);
        return true;
    }

    /// <summary>True if nothing is wrong; else that is said.</summary>
    static async Task<bool> SaidAsync(HttpContext context, bool isWrong, string detail, int status = StatusCodes.Status400BadRequest)
    {
        if (isWrong)
            await SystemProblem.SendAsync(context, status, detail);
        return !isWrong;
    }

    static string IdOf(HttpContext context) => (string)context.Request.RouteValues["id"]!;

    static byte[] ReadDescription()
    {
        using var file = typeof(SystemApi).Assembly.GetManifestResourceStream("EarHelp.Web.Systems.openapi.json")!;
        using var bytes = new MemoryStream();
        file.CopyTo(bytes);
        return bytes.ToArray();
    }

    [GeneratedRegex("\"timestamp\": \"[^\"]*\",?")]
    private static partial Regex WrittenAt();
}
