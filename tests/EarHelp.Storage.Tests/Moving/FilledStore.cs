using System.Text;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Callers;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Storage.Tests.Moving;

/// <summary>Something in every port.</summary>
static class FilledStore
{
    public const int Conversations = 260;

    static readonly Instant Nine = Instant.FromUtc(2020, 11, 26, 9, 0);
    static readonly Urgency Day = new("within a day", 2, Nine + Duration.FromDays(1), null);
    static readonly VisitTime Slot = new(Nine + Duration.FromDays(2), Nine + Duration.FromDays(2) + Duration.FromMinutes(20));

    static readonly ContactDetails Jo =
        new("Jo", "Mo", ReachBy.Email, "07700 900123", "jo@example.org", new VisitNeeds(true, "Polish", true, true, true, true, true, "not on Mondays"));

    public static async Task FillAsync(IStore store)
    {
        await Task.WhenAll(Enumerable.Range(0, Conversations).Select(i => TalkAsync(store, $"c{i}")));
        await store.KeepAsync("edition", Encoding.UTF8.GetBytes("sources"), default);
        var first = ChainedRecord.After(null, "{}"u8.ToArray());
        await ((IEditionLedger)store).AppendAsync(first, default);
        await ((IEditionLedger)store).AppendAsync(ChainedRecord.After(first, "{\"a\":1}"u8.ToArray()), default);

        // One time was held, was let go, and is another's now; the third person took the request back.
        await PutAsync(store, VisitRequest.New("c1", "f", Day, Nine).Holding(Slot, Nine + Duration.FromMinutes(5), "g", Nine), Jo);
        await PutAsync(store, VisitRequest.New("c2", "f", Day, Nine).Holding(Slot, Nine + Duration.FromHours(1), "g", Nine + Duration.FromMinutes(6)).Confirmed("h", Nine + Duration.FromMinutes(7)), Jo);
        await PutAsync(store, VisitRequest.New("c3", "f", Day, Nine).Withdrawn("g", Nine), null);

        await store.Visits.PutAsync(new Visit("c4", "edition", Nine, "jo", [new SeenFinding("hole", Ear.Left)], "c1"), default);
        var mistaken = new Visit("c5", "edition", Nine, "jo", [], null);
        await store.Visits.PutAsync(mistaken, default);
        await store.Visits.CorrectAsync(mistaken.Corrected("edition", Nine, "mo", [new SeenFinding("hole", Ear.Right)], new Correction(Nine, "The other patient's record")), default);
        await store.Incidents.AddAsync(new Incident("i", Nine, "jo", "c1", "edition", ["TR-1"], "Told too late"), default);
        await store.Callers.PutAsync(new Caller("c6", "jo", Nine, "01632 960177", null), default);
        await store.Callers.PutAsync(new Caller("c7", "jo", Nine, string.Empty, "mo"), default);
        await store.FollowUps.PutAsync(new FollowUp("c4", 1, "mo@patient.example.org", "stop"), default);
        await store.Closings.PutAsync(new KeptClosing(Nine, new LocalDate(2020, 11, 30), null), default);
        await store.Closings.PutAsync(new KeptClosing(Nine + Duration.FromDays(1), new LocalDate(2020, 12, 1), Nine + Duration.FromDays(1)), default);
        await store.Staff.PutAsync(new StaffAccount("j", 1, "Jo", [StaffRole.Desk], StaffState.Open, "stamp") { SignInName = "jo" }, default);
        await store.Staff.PutAsync(new StaffAccount("k", 1, "Mo", [StaffRole.Clinician], StaffState.Open, "stamp"), default);
        await store.SealingKeys.AddAsync(new SealingKey("key-1", "<key/>"), default);
        await store.Audit.AddAsync(new AuditEntry(Nine, "jo", AuditDeed.SignedIn, null), default);
        await store.Audit.AddAsync(new AuditEntry(Nine, "jo", AuditDeed.ReadConversation, "c1"), default);
    }

    static async Task TalkAsync(IStore store, string conversation)
    {
        var turn = SomeTurns.First(conversation, text: "Ünï \u0001 " + conversation);
        await store.AppendAsync(turn, [new ConversationKey("key of " + conversation, false, null), new ConversationKey("once " + conversation, true, 9_000)], default);
        await store.AppendAsync(SomeTurns.After(turn), [], default);
    }

    /// <summary>Every version before it too, as a service would have put them.</summary>
    static async Task PutAsync(IStore store, VisitRequest request, ContactDetails? contact)
    {
        for (var version = 1; version <= request.Version; version++)
            await store.Requests.PutAsync(version == request.Version ? request : VisitRequest.New(request.Conversation, $"f{version}", Day, Nine) with { Version = version }, contact, default);
    }
}
