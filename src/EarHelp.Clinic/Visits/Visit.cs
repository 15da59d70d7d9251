using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Clinic.Visits;

/// <summary>What a clinician recorded of one visit, as it stands now. A mistake is mended by a new version; the earlier ones stay with it.</summary>
/// <param name="Conversation">The conversation that was opened for the time after the visit.</param>
/// <param name="EditionId">The edition whose findings were offered.</param>
/// <param name="By">Who recorded this version, as colleagues read it.</param>
/// <param name="Before">The conversation from which the visit was asked for, which is erased with this one; null: none is known.</param>
public sealed record Visit(string Conversation, string EditionId, Instant At, string By, ImmutableArray<SeenFinding> Findings, string? Before)
{
    /// <summary>When and why this version was made; null: it is the first.</summary>
    public Correction? Correction { get; init; }

    /// <summary>The versions before, the oldest first, each without those before it.</summary>
    public ImmutableArray<Visit> Earlier
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    public int Version => Earlier.Length + 1;

    /// <summary>The next version, of the same visit.</summary>
    public Visit Corrected(string editionId, Instant at, string by, ImmutableArray<SeenFinding> findings, Correction correction) =>
        this with { EditionId = editionId, At = at, By = by, Findings = findings, Correction = correction, Earlier = [.. Earlier, this with { Earlier = [] }] };

    /// <summary>True if another version says that the same was found at the same time.</summary>
    public bool SaysTheSame(Visit other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return At == other.At && Findings.Length == other.Findings.Length && Findings.All(f => other.Findings.Contains(f));
    }
}

/// <param name="Finding">Its name in the edition.</param>
/// <param name="Ear">Left or right; null for a finding about the person.</param>
public sealed record SeenFinding(string Finding, Ear? Ear);

/// <param name="Reason">In the clinician's words, for colleagues; empty if none was needed.</param>
public sealed record Correction(Instant At, string Reason);
