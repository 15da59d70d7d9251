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

    /// <summary>True if the earlier version closed something that the next one does not, or not for as long: that needs a reason.</summary>
    public static bool IsTakenBack(Edition edition, Visit earlier, Visit next)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(next);
        var kept = Of(edition, next.Findings, next.At);
        return earlier.Findings.Any(f => FindingOf(edition.Dialog, f.Finding) is null)
            || Of(edition, earlier.Findings, earlier.At).Any(was => !kept.Any(now => was with { Until = null } == now with { Until = null } && EndsNoSooner(now, was)));
    }

    static bool EndsNoSooner(RecordedFact now, RecordedFact was) => now.Until is null || (was.Until is not null && now.Until >= was.Until);

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

    /// <summary>Something that closes a way is taken back, and no reason is given.</summary>
    NoReason,

    /// <summary>The correction says the same as the record.</summary>
    NothingChanged,

    /// <summary>Somebody else corrected it since the form was opened.</summary>
    CorrectedMeanwhile,

    /// <summary>There is no such visit, any more or at all.</summary>
    UnknownVisit,

    /// <summary>There is no such conversation from which the visit was asked for.</summary>
    UnknownRequest,

    /// <summary>The store or the edition failed: nothing is recorded.</summary>
    NotSaved,
}
