using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using Hl7.Fhir.Model;

namespace EarHelp.Exchange.Fhir;

/// <summary>What names a person: it is written only where that person asked for a visit.</summary>
sealed class PersonResources(ExportedConversation conversation, KeptRequest kept, ContactDetails contact)
{
    const string InterpreterRequired = "http://hl7.org/fhir/StructureDefinition/patient-interpreterRequired";

    readonly VisitRequest _request = kept.Request;

    public ResourceReference Subject => new($"Patient/{conversation.ResourceId}");

    public Patient Patient()
    {
        var needs = contact.Needs;
        var patient = new Patient { Id = conversation.ResourceId, Telecom = [.. Telecom()] };
        if (contact.Name.Length > 0)
            patient.Name.Add(new HumanName { Text = contact.Name });
        if (contact.AskedBy.Length > 0)
            patient.Contact.Add(new() { Name = new HumanName { Text = contact.AskedBy } });
        if (needs.Language.Length > 0)
            patient.Communication.Add(new() { Language = new CodeableConcept { Text = needs.Language } });
        if (needs.Interpreter || needs.SignLanguage)
            patient.AddExtension(InterpreterRequired, new FhirBoolean(true));
        return patient;
    }

    public ServiceRequest ServiceRequest() => new()
    {
        Id = conversation.ResourceId,
        Status = RequestStatus.Active,
        Intent = RequestIntent.Proposal,
        Priority = Priority(),
        Subject = Subject,
        Code = new CodeableConcept { Text = conversation.Words.Text("visit calendar title") },
        AuthoredOnElement = new FhirDateTime(_request.MadeAt.ToDateTimeOffset()),
        Occurrence = conversation.SeenBy is { } seenBy
            ? new Period(new FhirDateTime(_request.MadeAt.ToDateTimeOffset()), new FhirDateTime((seenBy < _request.MadeAt ? _request.MadeAt : seenBy).ToDateTimeOffset()))
            : null,
        SupportingInfo = [new ResourceReference($"QuestionnaireResponse/{conversation.ResourceId}")],
        Note = [.. Notes()],
    };

    /// <summary>Null: no time was taken.</summary>
    public Appointment? Appointment() => _request.Booked is { } visit
        ? new Appointment
        {
            Id = conversation.ResourceId,
            Status = Hl7.Fhir.Model.Appointment.AppointmentStatus.Booked,
            Description = conversation.Words.Text("visit calendar title"),
            Start = visit.Start.ToDateTimeOffset(),
            End = visit.End.ToDateTimeOffset(),
            BasedOn = [new ResourceReference($"ServiceRequest/{conversation.ResourceId}")],
            Participant = [new() { Actor = Subject, Status = ParticipationStatus.Accepted }, .. Places(visit)],
        }
        : null;

    /// <summary>Who sees the patient and in which room, by name: this service keeps no records of them.</summary>
    static IEnumerable<Hl7.Fhir.Model.Appointment.ParticipantComponent> Places(VisitTime visit)
    {
        foreach (var (type, name) in ((string, string?)[])[("Practitioner", visit.By), ("Location", visit.Room)])
        {
            if (name is not null)
                yield return new() { Actor = new ResourceReference { Type = type, Display = name }, Status = ParticipationStatus.Accepted };
        }
    }

    RequestPriority Priority() =>
        Enum.GetValues<RequestPriority>().First(p => p.ToString().Equals(conversation.Edition.Dialog.Levels.First(l => l.Id == conversation.Level).Priority, StringComparison.OrdinalIgnoreCase));

    IEnumerable<ContactPoint> Telecom()
    {
        if (contact.Number.Length > 0)
            yield return new ContactPoint(contact.ReachBy == ReachBy.TextMessage ? ContactPoint.ContactPointSystem.Sms : ContactPoint.ContactPointSystem.Phone, null, contact.Number);
        if (contact.Email.Length > 0)
            yield return new ContactPoint(ContactPoint.ContactPointSystem.Email, null, contact.Email);
    }

    IEnumerable<Annotation> Notes()
    {
        if (contact.Needs.Note.Length > 0)
            yield return new Annotation { Text = contact.Needs.Note };
    }
}
