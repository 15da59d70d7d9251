using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Tests;
using EarHelp.Exchange.Fhir;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conformance.Records;

/// <summary>Invented patients who reached an outcome.</summary>
static class RecordedPatients
{
    static readonly Dictionary<string, string?> Swimmer = new()
    {
        ["ears affected"] = "left",
        ["hearing"] = "reduced",
        ["hearing worsened over"] = "0..3",
        ["hearing changed on"] = "1..3",
        ["looked at"] = "nobody",
        ["blocked"] = "yes",
        ["swam lately"] = "yes",
    };

    static readonly Dictionary<string, string?> Unsure = new()
    {
        ["ears affected"] = null,
        ["hearing"] = null,
        ["spinning"] = null,
        ["pain"] = "yes",
        ["pain strength"] = "4",
        ["fever"] = "yes",
        ["temperature"] = null,
    };

    static readonly Dictionary<string, string?> BothSore = new()
    {
        ["ears affected"] = "both",
        ["pain"] = "yes",
        ["pain strength"] = "3",
        ["discharge"] = "yes",
        ["diabetes"] = "yes",
    };

    public static ImmutableArray<string> Names => ["swimmer", "unsure", "both sore"];

    /// <param name="asksForVisit">True: with a request, a name, needs and a visit that was booked.</param>
    public static ExportedConversation Of(string name, bool asksForVisit)
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(name switch
        {
            "swimmer" => Swimmer,
            "unsure" => Unsure,
            _ => BothSore,
        });
        var words = OneConversation.Edition.WriterOf(talk.State!);
        var request = asksForVisit ? Asked(talk) : null;
        return new ExportedConversation("7H_BZguPsjEYq3ZByBR1A" + Names.IndexOf(name), OneConversation.Edition.Edition, words, [talk.Told!], request);
    }

    /// <summary>One who asked for a visit and was seen: wax was left on purpose, and the ear is to stay dry. First the other ear was recorded.</summary>
    public static ExportedConversation Seen(string name)
    {
        var asked = Of(name, asksForVisit: true);
        ImmutableArray<SeenFinding> findings = [new("suction", Ear.Left), new("wax left on purpose", Ear.Left), new("keep it dry", Ear.Left), new("dizzy in the chair", null)];
        var at = asked.Request!.Request.Booked!.Value.Start;
        var visit = new Visit("5ee2_-Psj_Yq3ZByBR1AA", asked.Edition.Id, at, "R. Adair", [new SeenFinding("suction", Ear.Right)], asked.Id)
            .Corrected(asked.Edition.Id, at, "R. Adair", findings, new Correction(at + Duration.FromHours(1), "The other ear"));
        return asked with { Visits = [new ExportedVisit(visit, asked.Edition, asked.Words)] };
    }

    static KeptRequest Asked(OneConversation talk)
    {
        var contact = new ContactDetails(
            "Ida Voss", "Pat Voss", ReachBy.TextMessage, "07700 900123", "ida@hallowmere.example",
            VisitNeeds.None with { Interpreter = true, Language = "Welsh", StepFree = true, Note = "Not on Fridays" });
        var booked = new VisitTime(talk.Now + Duration.FromHours(2), talk.Now + Duration.FromHours(3));
        return new KeptRequest(VisitRequest.New("c0ffee", "form", Urgency.Of(talk.Told!), talk.Now) with { Booked = booked }, contact);
    }
}
