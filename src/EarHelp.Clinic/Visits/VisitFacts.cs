using System.Collections.Immutable;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Clinic.Visits;

/// <summary>What the findings of a visit say about facts, and until when.</summary>
public static class VisitFacts
{
    /// <param name="at">When the visit was; what counts for some days counts to the end of the last of them.</param>
    public static ImmutableArray<RecordedFact> Of(Edition edition, ImmutableArray<SeenFinding> findings, Instant at)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return [.. findings.SelectMany(f => Of(edition, f, at)).Distinct()];
    }

    static IEnumerable<RecordedFact> Of(Edition edition, SeenFinding seen, Instant at)
    {
        var zone = edition.Clinic.Zone;
        var day = at.InZone(zone).Date;
        foreach (var set in FindingOf(edition.Dialog, seen.Finding)?.Sets ?? [])
        {
            var fact = edition.Dialog.Facts[set.Fact];
            Instant? until = set.Days is { } days ? zone.AtStartOfDay(day.PlusDays(days + 1)).ToInstant() : null;
            yield return new RecordedFact(fact.Id, fact.About == About.Ear ? seen.Ear : null, fact.Values.NameOf(set.Value), until);
        }
    }

    /// <summary>What keeps these findings from being recorded; null: nothing does.</summary>
    public static VisitFault? FaultOf(Edition edition, ImmutableArray<SeenFinding> findings, Instant at, Instant now)
    {
        ArgumentNullException.ThrowIfNull(edition);
        if (edition.Clinic.VisitKeptDays == 0)
            return VisitFault.NotOffered;
        if (findings.IsDefaultOrEmpty)
            return VisitFault.NothingTicked;
        foreach (var seen in findings)
        {
            if (FindingOf(edition.Dialog, seen.Finding) is not { } finding)
                return VisitFault.UnknownFinding;
            if (finding.About == About.Person ? seen.Ear is not null : seen.Ear is not (Ear.Left or Ear.Right))
                return VisitFault.WrongEar;
        }

        if (at > now)
            return VisitFault.InTheFuture;
        return at < now - Duration.FromDays(edition.Clinic.VisitKeptDays) ? VisitFault.TooLongAgo : null;
    }

    static VisitFinding? FindingOf(Dialog dialog, string name) => dialog.Findings.FirstOrDefault(f => string.Equals(f.Id, name, StringComparison.Ordinal));
}

/// <summary>What keeps a visit from being recorded.</summary>
public enum VisitFault
{
    /// <summary>The clinic keeps no visits here.</summary>
    NotOffered,
    NothingTicked,
    UnknownFinding,

    /// <summary>A finding about an ear without one, or a finding about the person with one.</summary>
    WrongEar,
    InTheFuture,

    /// <summary>Longer ago than visits are kept.</summary>
    TooLongAgo,

    /// <summary>No message can reach the address for check-ins.</summary>
    WrongEmail,

    /// <summary>This form was sent before and said something else.</summary>
    RecordedOtherwise,

    /// <summary>There is no such conversation from which the visit was asked for.</summary>
    UnknownRequest,

    /// <summary>The store or the edition failed: nothing is recorded.</summary>
    NotSaved,
}
