using System.Collections.Immutable;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;

namespace EarHelp.Web.Systems;

/// <summary>A visit as the clinic's own systems read it.</summary>
/// <param name="Conversation">The one for the time after the visit.</param>
/// <param name="Edition">Whose findings they are.</param>
/// <param name="Version">From 1; a corrected record is the next one.</param>
/// <param name="CorrectedAt">When this version was made; null: it is the first.</param>
/// <param name="Before">The conversation from which the visit was asked for; null: none is known.</param>
sealed record ReadVisit(string Conversation, string Edition, string At, string By, ImmutableArray<ReadFinding> Findings, int Version, string? CorrectedAt, string? Before)
{
    internal static ReadVisit Of(Visit visit) => new(
        visit.Conversation, visit.EditionId, ReadTime.Written(visit.At), visit.By, [.. visit.Findings.Select(f => new ReadFinding(f.Finding, EarOf(f.Ear)))],
        visit.Version, ReadTime.Written(visit.Correction?.At), visit.Before);

    static string? EarOf(Ear? ear) => ear switch
    {
        Ear.Left => "left",
        Ear.Right => "right",
        _ => null,
    };
}

/// <param name="Ear">Null: about the person.</param>
sealed record ReadFinding(string Finding, string? Ear);
