using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Replies;

namespace EarHelp.Clinic.CheckIns;

/// <summary>What the desk must see of a patient who is not well after a visit.</summary>
public static class Worsening
{
    /// <summary>True if the questions that followed such an answer led to a limit, and the desk does not have it.</summary>
    /// <param name="told">What the questions led to last, or null.</param>
    /// <param name="kept">The request of the conversation, or null.</param>
    public static bool IsForDesk(FollowUp followUp, OutcomeTold? told, VisitRequest? kept)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return told is { SeenBy: not null }
            && followUp.Replies.Any(r => !r.IsWell && r.At <= told.DecidedAt)
            && (kept is null || (kept.State == RequestState.Withdrawn && kept.ChangedAt < told.DecidedAt));
    }

    /// <summary>How to reach the patient: as for the visit, else by the address of the messages.</summary>
    /// <param name="before">How to reach who asked for the visit, or null.</param>
    public static ContactDetails ContactOf(FollowUp followUp, ContactDetails? before)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return before ?? ContactDetails.Empty with
        {
            Email = followUp.Email,
            ReachBy = followUp.Email.Length > 0 ? ReachBy.Email : ReachBy.NotSaid,
            Needs = VisitNeeds.None with { BeenBefore = true },
        };
    }
}
