using System.Text.Json;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace EarHelp.Exchange.Fhir;

/// <summary>Resources as JSON, as HL7 FHIR R4 writes it.</summary>
public static class FhirJson
{
    static readonly JsonSerializerOptions Options = new JsonSerializerOptions().ForFhir(ModelInfo.ModelInspector).Pretty();

    public static string Write(Resource resource) => JsonSerializer.Serialize(resource, Options);

    /// <exception cref="DeserializationFailedException">It is no such resource; the message names the element, line and position.</exception>
    public static T Read<T>(string json)
        where T : Resource => JsonSerializer.Deserialize<T>(json, Options) ?? throw new JsonException("A resource is an object, not null.");
}
