using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Replies;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>What the desk must see of a patient who is not well after a visit.</summary>
public static class Worsening
{
    /// <summary>True if the questions that followed such an answer led to a limit, and the desk was not told of it.</summary>
    /// <param name="told">What the questions led to last, or null.</param>
    /// <param name="kept">The request of the conversation, or null.</param>
    public static bool IsForDesk(FollowUp followUp, OutcomeTold? told, VisitRequest? kept)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return told is { SeenBy: not null }
            && followUp.Replies.Any(r => !r.IsWell && r.At <= told.DecidedAt)
            && LastTold(kept) is var last && (last is null || last < told.DecidedAt);
    }

    /// <summary>True if such an answer was given and nothing that the desk would see has come of it: the questions were left, or led to no limit.</summary>
    /// <param name="toldAt">When the questions led to something last, or null.</param>
    public static bool IsLeft(FollowUp followUp, Instant? toldAt)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return followUp.Replies.LastOrDefault() is { IsWell: false } last && (toldAt is null || toldAt < last.At);
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

    static Instant? LastTold(VisitRequest? kept) => kept?.Steps.LastOrDefault(s => s.Kind == DeskStepKind.NotWell)?.At;
}
