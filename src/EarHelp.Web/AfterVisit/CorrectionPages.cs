using System.Globalization;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;

namespace EarHelp.Web.AfterVisit;

/// <summary>Correcting what was recorded of a visit: a new version, which the plan and the questions follow at once. For clinicians only.</summary>
public sealed class CorrectionPages(StaffGate gate, IVisitStore visits, TurnTaking taking, VisitRecording recording, Auditor auditor, FaultPages faults)
{
    internal static string AddressOf(string conversation) => $"{AfterVisitParts.Prefix}/{conversation}/correct";

    public async Task FormAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Clinician) is not { } reader)
            return;
        var conversation = ConversationOf(context);
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ReadConversation, conversation, context.RequestAborted);
        if (await FindAsync(context, conversation) is not var (visit, edition))
            return;
        var when = RecordForm.MomentOf(visit.At, edition.Clinic.Zone);
        await PageResponse.SendAsync(context, RecordForm.WriteCorrection(reader, edition, visit, visit.Version, Secret.NewIdentifier(), when, visit.Findings, "", null));
    }

    public async Task CorrectAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Clinician) is not var (by, fields))
            return;
        var conversation = ConversationOf(context);
        var turn = fields[FormFields.Turn].ToString();
        if (turn.Length is 0 or > SentForm.LongestTurn || !int.TryParse(fields[RecordForm.Version], NumberStyles.None, CultureInfo.InvariantCulture, out var version))
        {
            await faults.SendAsync(context, StatusCodes.Status400BadRequest);
            return;
        }

        if (await FindAsync(context, conversation) is not var (visit, edition))
            return;
        var ticked = RecordForm.ReadTicked(fields);
        var reason = StaffForm.ReadLine(fields[RecordForm.Reason], RecordForm.LongestReason);
        var fault = "record when wrong";
        if (RecordForm.ReadWhen(fields, edition.Clinic.Zone) is { } at)
        {
            await auditor.AddAsync(by.Account.Id, AuditDeed.CorrectedVisit, conversation, context.RequestAborted);
            fault = await recording.CorrectAsync(conversation, version, at, by.Account.ShownName, ticked, reason, turn, context.RequestAborted) is { } wrong ? RecordForm.KeyOf(wrong) : null;
        }

        if (fault is null)
            await PageResponse.GoToAsync(context, AfterVisitParts.Prefix);
        else
            await PageResponse.SendAsync(context, RecordForm.WriteCorrection(by, edition, visit, version, turn, RecordForm.WrittenWhen(fields), ticked, reason, fault), StatusCodes.Status422UnprocessableEntity);
    }

    static string ConversationOf(HttpContext context) => (string)context.Request.RouteValues["id"]!;

    /// <summary>Null after it was said that there is no such visit.</summary>
    async Task<(Visit Visit, Triage.Editions.Edition Edition)?> FindAsync(HttpContext context, string conversation)
    {
        if (await visits.FindAsync(conversation, context.RequestAborted) is { } visit && await taking.FindAsync(conversation, context.RequestAborted) is var (served, _))
            return (visit, served.Edition);
        await faults.SendAsync(context, StatusCodes.Status404NotFound);
        return null;
    }
}
