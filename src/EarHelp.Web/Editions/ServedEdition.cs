using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Editions;

/// <summary>The edition that new conversations begin with.</summary>
/// <param name="Words">Its words for a person of whom nothing is known yet.</param>
public sealed record ServedEdition(Edition Edition, Assessor Assessor, Words Words);
