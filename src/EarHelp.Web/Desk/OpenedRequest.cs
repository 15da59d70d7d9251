using System.Collections.Immutable;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Desk;

/// <summary>A request with everything that staff need to answer it.</summary>
/// <param name="Kept">As urgent as it is now.</param>
/// <param name="Edition">The one that the conversation goes on with.</param>
/// <param name="Told">The outcome that was told last.</param>
/// <param name="Words">Of the conversation: its own edition's, for who writes in it.</param>
/// <param name="Free">Times that could be offered; null: nobody can tell.</param>
/// <param name="SamePerson">Other requests with the same number or address.</param>
/// <param name="Visits">What was recorded of the visit before this conversation, and of those that came of it.</param>
/// <param name="By">Names of who did what, by account.</param>
sealed record OpenedRequest(
    KeptRequest Kept,
    ServedEdition Edition,
    OutcomeTold Told,
    Words Words,
    Handover Handover,
    ImmutableArray<VisitTime>? Free,
    ImmutableArray<KeptRequest> SamePerson,
    ImmutableArray<Visit> Visits,
    ImmutableDictionary<string, string> By)
{
    public VisitRequest Request => Kept.Request;
}
