using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using EarHelp.Web.Editions;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.AfterVisit;

/// <summary>What the command line may ask of a running service about visits. It stands in the audit trail before.</summary>
public sealed class VisitControl(VisitRecording recording, ServedEditions editions, Auditor auditor)
{
    static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter<Ear>(JsonNamingPolicy.CamelCase), new JsonStringEnumConverter<VisitFault>() },
    };

    /// <summary>A visit as it is sent.</summary>
    /// <param name="At">Local time at the clinic, <c>2026-11-26T10:30</c>.</param>
    /// <param name="Before">The conversation from which it was asked for, or null.</param>
    /// <param name="Email">Where the patient agreed to be asked after it; empty: nowhere.</param>
    public sealed record SentVisit(string At, string By, ImmutableArray<SeenFinding> Findings, string? Before = null, string Email = "");

    /// <summary>Answers 200 with the findings of the edition that is served: name, about, kind, and what staff tick.</summary>
    public Task FindingsAsync(HttpContext context)
    {
        var served = editions.Current;
        var words = served?.Edition.Wordings[served.DefaultLanguage].Findings;
        return context.Response.WriteAsJsonAsync(
            served?.Dialog.Findings.Select(f => new { name = f.Id, about = f.About == About.Ear ? "ear" : "person", kind = $"{f.Kind}", form = words![f.Id].Form }) ?? [], Json, context.RequestAborted);
    }

    /// <summary>
    /// Takes a <see cref="SentVisit"/>. Answers 200 with <c>{"conversation":ID,"link":PATH}</c>; 422 with <c>{"fault":NAME}</c>, a
    /// <see cref="VisitFault"/>; 400 if it cannot be read.
    /// </summary>
    public async Task RecordAsync(HttpContext context)
    {
        if (await ReadAsync(context) is not { } sent || editions.Current is not { } served
            || LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(sent.At) is not { Success: true, Value: var local } || string.IsNullOrWhiteSpace(sent.By))
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            return;
        }

        var visit = new Visit(
            Secret.NewIdentifier(), served.Edition.Id, served.Edition.Clinic.Zone.AtLeniently(local).ToInstant(), sent.By.Trim(), sent.Findings, sent.Before);
        var link = Secret.New();
        await auditor.AddAsync(Actor.Terminal, AuditDeed.RecordedVisit, visit.Conversation, context.RequestAborted);
        if (await recording.RecordAsync(visit, new FollowUp(visit.Conversation, 1, sent.Email.Trim(), Secret.New()), served.Edition, served.DefaultLanguage, Talk.KeyOfLink(link), context.RequestAborted) is { } fault)
        {
            context.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            await context.Response.WriteAsJsonAsync(new { fault }, Json, context.RequestAborted);
            return;
        }

        await context.Response.WriteAsJsonAsync(new { conversation = visit.Conversation, link = VisitLinks.PathOf(link) }, Json, context.RequestAborted);
    }

    /// <summary>Answers 200 with <c>{"conversation":ID,"link":PATH}</c>, a new link; 404 if there is no such visit.</summary>
    public async Task LinkAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var conversation = (string)context.Request.RouteValues["id"]!;
        var link = Secret.New();
        await auditor.AddAsync(Actor.Terminal, AuditDeed.MadeVisitLink, conversation, context.RequestAborted);
        if (await recording.LinkAsync(conversation, Secret.NewIdentifier(), Talk.KeyOfLink(link), context.RequestAborted))
            await context.Response.WriteAsJsonAsync(new { conversation, link = VisitLinks.PathOf(link) }, Json, context.RequestAborted);
        else
            context.Response.StatusCode = StatusCodes.Status404NotFound;
    }

    static async ValueTask<SentVisit?> ReadAsync(HttpContext context)
    {
        try
        {
            return await context.Request.ReadFromJsonAsync<SentVisit>(Json, context.RequestAborted) is { Findings.IsDefault: false } sent ? sent : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
