using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;

namespace EarHelp.Exchange.Fhir;

/// <summary>A visit that somebody asked for, as other systems get it.</summary>
/// <param name="Edition">Whose findings were recorded, and whose plan follows them.</param>
/// <param name="Words">As the patient reads the plan.</param>
public sealed record ExportedVisit(Visit Visit, Edition Edition, LetterWriter Words)
{
    public string ResourceId => RecordAddress.ResourceId(Visit.Conversation);
}
