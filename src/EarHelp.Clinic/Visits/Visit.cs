using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Clinic.Visits;

/// <summary>What a clinician recorded of one visit. It is recorded once; a mistake is mended by erasing it and recording it anew.</summary>
/// <param name="Conversation">The conversation that was opened for the time after the visit.</param>
/// <param name="EditionId">The edition whose findings were offered.</param>
/// <param name="By">Who recorded it, as colleagues read it.</param>
/// <param name="Before">The conversation from which the visit was asked for, which is erased with this one; null: none is known.</param>
public sealed record Visit(string Conversation, string EditionId, Instant At, string By, ImmutableArray<SeenFinding> Findings, string? Before);

/// <param name="Finding">Its name in the edition.</param>
/// <param name="Ear">Left or right; null for a finding about the person.</param>
public sealed record SeenFinding(string Finding, Ear? Ear);
