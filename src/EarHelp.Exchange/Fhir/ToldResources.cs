using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using Hl7.Fhir.Model;

namespace EarHelp.Exchange.Fhir;

/// <summary>What the person was told, and by which edition.</summary>
sealed class ToldResources(ExportedConversation conversation)
{
    readonly RecordAddress _address = RecordAddress.Of(conversation.Edition);

    FhirDateTime At => new(conversation.Told.DecidedAt.ToDateTimeOffset());

    ResourceReference Response => new($"QuestionnaireResponse/{conversation.Id}");

    /// <param name="subject">Null: nobody is named.</param>
    public Communication Communication(ResourceReference? subject) => new()
    {
        Id = conversation.Id,
        Status = EventStatus.Completed,
        Subject = subject,
        About = [Response],
        SentElement = At,
        Payload = [new() { Content = new FhirString(Text()) }],
    };

    /// <summary>What to do and to leave alone, one activity each.</summary>
    public CarePlan CarePlan(ResourceReference subject) => new()
    {
        Id = conversation.Id,
        Status = RequestStatus.Active,
        Intent = Hl7.Fhir.Model.CarePlan.CarePlanIntent.Proposal,
        Subject = subject,
        CreatedElement = At,
        SupportingInfo = [Response],
        Activity = [.. conversation.Told.Advice.Select(Activity)],
    };

    /// <param name="targets">Every resource that the edition decided.</param>
    public Provenance Provenance(IEnumerable<ResourceReference> targets) => new()
    {
        Id = conversation.Id,
        Target = [.. targets],
        RecordedElement = new Instant(conversation.Told.DecidedAt.ToDateTimeOffset()),
        Agent = [new() { Who = new ResourceReference { Display = conversation.Edition.Clinic.Name } }],
        Entity =
        [
            new()
            {
                Role = Hl7.Fhir.Model.Provenance.ProvenanceEntityRole.Source,
                What = new ResourceReference { Identifier = new Identifier(_address.Editions, conversation.Edition.Id) },
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
