using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Clinic.Requests;

/// <summary>Whether a visit may be asked for here: the clinic is a right place, can do it in time, and takes requests.</summary>
public static class VisitOffer
{
    public static bool IsMade(ServedEdition edition, OutcomeTold told, Instant now)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(told);
        return edition.Edition.Clinic.RequestKeptDays > 0
            && told.Rank > 0
            && told.Destinations.Any(place => IsClinic(edition, place.Id))
            && (told.SeenBy is not { } limit || edition.Calendar.FirstVisitBefore(now, limit) is not null);
    }

    static bool IsClinic(ServedEdition edition, string destination) =>
        edition.Dialog.Destinations.Any(d => d.Hours == DestinationHours.Clinic && d.Id == destination);
}
