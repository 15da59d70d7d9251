using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Exchange.Fhir;

/// <summary>A conversation as other systems get it.</summary>
/// <param name="Edition">The one that decided the last outcome.</param>
/// <param name="Outcomes">Every outcome that was told, in order; not empty.</param>
/// <param name="Request">The request for a visit; null, or withdrawn, if nobody is to be reached: then nothing names a person.</param>
public sealed record ExportedConversation(
    string Id, Edition Edition, LetterWriter Words, ImmutableArray<OutcomeTold> Outcomes, KeptRequest? Request)
{
    /// <summary>The visits that came of it; written only where the person is named.</summary>
    public ImmutableArray<ExportedVisit> Visits { get; init; } = [];

    public string ResourceId => RecordAddress.ResourceId(Id);

    public OutcomeTold Told => Outcomes[^1];

    /// <summary>True if an answer was changed after an outcome had been told.</summary>
    public bool IsAmended => Outcomes.Length > 1;

    /// <summary>How urgent it is now, as staff see it.</summary>
    public Instant? SeenBy => Request is { } kept ? kept.Request.UrgencyAfter(Outcomes).SeenBy : Told.SeenBy;

    public string Level => Request is { } kept ? kept.Request.UrgencyAfter(Outcomes).Level : Told.Level;
}
