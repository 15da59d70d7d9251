using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using Hl7.Fhir.Model;

namespace EarHelp.Exchange.Fhir;

/// <summary>What the person was told, and by which edition.</summary>
sealed class ToldResources(ExportedConversation conversation)
{
    readonly RecordAddress _address = RecordAddress.Of(conversation.Edition);

    FhirDateTime At => new(conversation.Told.DecidedAt.ToDateTimeOffset());

    ResourceReference Response => new($"QuestionnaireResponse/{conversation.ResourceId}");

    /// <param name="subject">Null: nobody is named.</param>
    public Communication Communication(ResourceReference? subject) => new()
    {
        Id = conversation.ResourceId,
        Status = EventStatus.Completed,
        Subject = subject,
        About = [Response],
        SentElement = At,
        Payload = [new() { Content = new FhirString(Text()) }],
    };

    /// <summary>What to do and to leave alone, one activity each.</summary>
    public CarePlan CarePlan(ResourceReference subject) => new()
    {
        Id = conversation.ResourceId,
        Status = RequestStatus.Active,
        Intent = Hl7.Fhir.Model.CarePlan.CarePlanIntent.Proposal,
        Subject = subject,
        CreatedElement = At,
        SupportingInfo = [Response],
        Activity = [.. conversation.Told.Advice.Select(Activity)],
    };

    /// <param name="targets">Every resource that the edition decided.</param>
    public Provenance Provenance(IEnumerable<ResourceReference> targets) => Provenance(conversation.ResourceId, targets, conversation.Told.DecidedAt, conversation.Edition);

    /// <summary>By which edition the plan after a visit was chosen.</summary>
    public Provenance Provenance(ExportedVisit exported) =>
        Provenance(exported.ResourceId, [new ResourceReference($"CarePlan/{exported.ResourceId}")], exported.Visit.Correction?.At ?? exported.Visit.At, exported.Edition);

    Provenance Provenance(string id, IEnumerable<ResourceReference> targets, NodaTime.Instant at, Edition edition) => new()
    {
        Id = id,
        Target = [.. targets],
        RecordedElement = new Instant(at.ToDateTimeOffset()),
        Agent = [new() { Who = new ResourceReference { Display = edition.Clinic.Name } }],
        Entity =
        [
            new()
            {
                Role = Hl7.Fhir.Model.Provenance.ProvenanceEntityRole.Source,
                What = new ResourceReference { Identifier = new Identifier(_address.Editions, edition.Id) },
            },
        ],
    };

    CarePlan.ActivityComponent Activity(AdviceTold item) => new()
    {
        Detail = new()
        {
            Status = Hl7.Fhir.Model.CarePlan.CarePlanActivityStatus.Unknown,
            DoNotPerform = item.Kind == AdviceTold.LeaveAlone,
            Description = conversation.Words.Headline(item),
        },
    };

    string Text() =>
        PlainText.Of(conversation.Words.Write(new Reply.Outcome(conversation.Told), conversation.Told.DecidedAt), conversation.Words);
}
