using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Systems;

/// <summary>A request as the clinic's own systems read it. All moments are ISO 8601 in UTC.</summary>
/// <param name="Level">How urgent it is now.</param>
/// <param name="SeenBy">The limit; null: none.</param>
/// <param name="AnswerBy">From then on the patient goes elsewhere; null without a limit.</param>
/// <param name="IsAnswered">True once staff answered.</param>
/// <param name="Visit">The time that was taken; null: none.</param>
/// <param name="Offered">A time that is held for the patient; null: none.</param>
sealed record ReadRequest(
    string Conversation,
    string MadeAt,
    string ChangedAt,
    string Level,
    string? SeenBy,
    string? AnswerBy,
    bool IsAnswered,
    ReadTime? Visit,
    ReadTime? Offered,
    ReadContact? Contact)
{
    internal static ReadRequest Of(KeptRequest kept, Instant now)
    {
        var request = kept.Request;
        return new ReadRequest(
            request.Conversation, ReadTime.Written(request.MadeAt), ReadTime.Written(request.ChangedAt), request.Urgency.Level,
            ReadTime.Written(request.Urgency.SeenBy), ReadTime.Written(request.Urgency.AnswerBy), request.IsAnswered(request.Urgency, now),
            request.Booked is { } booked ? ReadTime.Of(booked) : null,
            request.Held is { } held && held.IsHeld(now) ? ReadTime.Of(held.Time) : null,
            kept.Contact is { } contact ? ReadContact.Of(contact) : null);
    }
}

/// <param name="End">Outside.</param>
/// <param name="By">Who sees the patient; null: the clinic does not say.</param>
/// <param name="Room">Null: the clinic does not say.</param>
sealed record ReadTime(string Start, string End, string? By, string? Room)
{
    internal static ReadTime Of(VisitTime time) => new(Written(time.Start), Written(time.End), time.By, time.Room);

    internal static string Written(Instant moment) => InstantPattern.General.Format(moment);

    internal static string? Written(Instant? moment) => moment is { } at ? Written(at) : null;
}

/// <summary>How to reach who asked, and what helps at the visit.</summary>
/// <param name="ReachBy">The way that suits the person.</param>
/// <param name="Language">The interpreter's language; null: not said.</param>
/// <param name="Note">In the person's own words; null: nothing was written.</param>
sealed record ReadContact(
    string? Name, string? AskedBy, string ReachBy, string? Number, string? Email, bool Interpreter, string? Language, bool SignLanguage, bool StepFree, bool Carer, bool Chaperone,
    bool BeenBefore, string? Note)
{
    internal static ReadContact Of(ContactDetails contact)
    {
        var needs = contact.Needs;
        return new ReadContact(
            Said(contact.Name), Said(contact.AskedBy), WayOf(contact.ReachBy), Said(contact.Number), Said(contact.Email), needs.Interpreter, Said(needs.Language), needs.SignLanguage,
            needs.StepFree, needs.Carer, needs.Chaperone, needs.BeenBefore, Said(needs.Note));
    }

    static string? Said(string written) => written.Length > 0 ? written : null;

    static string WayOf(ReachBy way) => way switch
    {
        Clinic.Requests.ReachBy.NotSaid => "not-said",
        Clinic.Requests.ReachBy.TextMessage => "text-message",
        Clinic.Requests.ReachBy.Email => "email",
        Clinic.Requests.ReachBy.Call => "call",
        Clinic.Requests.ReachBy.RelayCall => "relay-call",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
