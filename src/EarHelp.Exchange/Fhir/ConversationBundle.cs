using System.Collections.Immutable;
using EarHelp.Clinic.Requests;
using Hl7.Fhir.Model;
using NodaTime;

namespace EarHelp.Exchange.Fhir;

/// <summary>Gathers conversations for a record system: a collection that names a person only where that person asked for a visit.</summary>
public static class ConversationBundle
{
    /// <param name="writtenAt">The moment of the writing.</param>
    public static Bundle Of(IEnumerable<ExportedConversation> conversations, NodaTime.Instant writtenAt)
    {
        ArgumentNullException.ThrowIfNull(conversations);
        return new Bundle
        {
            Type = Bundle.BundleType.Collection,
            Timestamp = writtenAt.ToDateTimeOffset(),
            Entry = [.. conversations.SelectMany(Entries)],
        };
    }

    static IEnumerable<Bundle.EntryComponent> Entries(ExportedConversation conversation)
    {
        var address = RecordAddress.Of(conversation.Edition);
        return ResourcesOf(conversation).Select(r => new Bundle.EntryComponent { FullUrl = address.Of(r.TypeName, r.Id!), Resource = r });
    }

    static ImmutableArray<Resource> ResourcesOf(ExportedConversation conversation)
    {
        var response = new ResponseWriter(conversation).Write();
        var told = new ToldResources(conversation);
        var decided = ImmutableArray.CreateBuilder<DomainResource>();
        decided.Add(response);
        Patient? patient = null;
        var after = ImmutableArray.CreateBuilder<Resource>();
        if (conversation.Request is { Request.State: RequestState.Waiting, Contact: { } contact } kept)
        {
            var person = new PersonResources(conversation, kept, contact);
            patient = person.Patient();
            response.Subject = person.Subject;
            decided.Add(person.ServiceRequest());
            if (person.Appointment() is { } appointment)
                decided.Add(appointment);
            decided.Add(told.CarePlan(person.Subject));
            foreach (var visit in conversation.Visits)
            {
                if (VisitPlan.Write(visit, person.Subject) is { } plan)
                    after.AddRange(plan, told.Provenance(visit));
            }
        }

        decided.Add(told.Communication(response.Subject));
        var provenance = told.Provenance(decided.Select(r => new ResourceReference($"{r.TypeName}/{r.Id}")));
        return [.. patient is null ? Array.Empty<Resource>() : [patient], .. decided, provenance, .. after];
    }
}
