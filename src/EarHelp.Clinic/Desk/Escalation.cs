using System.Collections.Immutable;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using NodaTime;

namespace EarHelp.Clinic.Desk;

/// <summary>When a request that nobody answers goes to whoever is on duty, and who that is.</summary>
public static class Escalation
{
    /// <summary>
    /// Half of the time from the request to the moment from which the patient goes elsewhere (common practice): the other half is for whoever
    /// is on duty. Without a limit nothing escalates.
    /// </summary>
    public static Instant? DueAt(VisitRequest request, Urgency urgency)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(urgency);
        var asked = request.SentAgainAt ?? request.MadeAt;
        return urgency.AnswerBy is not { } answer ? null : answer > asked ? asked + ((answer - asked) / 2) : asked;
    }

    /// <summary>True if it is due and has not been done yet at this level.</summary>
    public static bool IsDue(VisitRequest request, Urgency urgency, Instant now)
    {
        ArgumentNullException.ThrowIfNull(request);
        return DueAt(request, urgency) <= now && !request.IsAnswered(urgency, now) && !IsEscalated(request, urgency);
    }

    public static bool IsEscalated(VisitRequest request, Urgency urgency)
    {
        ArgumentNullException.ThrowIfNull(request);
        var since = request.Steps.LastOrDefault(s => s.Kind == DeskStepKind.Escalated);
        return since is not null && since.Seen.Rank <= urgency.Rank && since.At >= (request.SentAgainAt ?? request.MadeAt);
    }

    /// <summary>Who is on duty at the desk or as a clinician; if nobody is, everybody who could be: it works with one member of staff.</summary>
    public static ImmutableArray<StaffAccount> OnDuty(ImmutableArray<StaffAccount> accounts)
    {
        ImmutableArray<StaffAccount> able = [.. accounts.Where(a => a.Has(StaffRole.Desk) || a.Has(StaffRole.Clinician))];
        return able.Any(a => a.IsOnDuty) ? [.. able.Where(a => a.IsOnDuty)] : able;
    }
}
