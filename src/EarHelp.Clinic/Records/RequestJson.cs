using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Records;

namespace EarHelp.Clinic.Records;

/// <summary>The written form of requests and contact details; opaque to a store.</summary>
public static class RequestJson
{
    static readonly RequestJsonContext Context = new(RecordJson.Options(
        new JsonStringEnumConverter<RequestState>(JsonNamingPolicy.CamelCase),
        new JsonStringEnumConverter<ReachBy>(JsonNamingPolicy.CamelCase),
        new JsonStringEnumConverter<DeskStepKind>(JsonNamingPolicy.CamelCase)));

    public static byte[] Write(VisitRequest request) => JsonSerializer.SerializeToUtf8Bytes(request, Context.VisitRequest);

    public static byte[] Write(ContactDetails contact) => JsonSerializer.SerializeToUtf8Bytes(contact, Context.ContactDetails);

    /// <summary>Several, with how to reach who asked.</summary>
    public static byte[] Write(ImmutableArray<KeptRequest> requests) => JsonSerializer.SerializeToUtf8Bytes(requests, Context.ImmutableArrayKeptRequest);

    /// <exception cref="JsonException">The bytes are no list of requests that this program knows.</exception>
    public static ImmutableArray<KeptRequest> ReadAll(ReadOnlySpan<byte> json) => JsonSerializer.Deserialize(json, Context.ImmutableArrayKeptRequest);

    /// <exception cref="JsonException">The bytes are no request that this program knows.</exception>
    public static VisitRequest ReadRequest(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.VisitRequest) ?? throw new JsonException("A request is an object, not null.");

    /// <exception cref="JsonException">The bytes are no contact details that this program knows.</exception>
    public static ContactDetails ReadContact(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.ContactDetails) ?? throw new JsonException("Contact details are an object, not null.");
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(VisitRequest))]
[JsonSerializable(typeof(ContactDetails))]
[JsonSerializable(typeof(ImmutableArray<KeptRequest>))]
sealed partial class RequestJsonContext : JsonSerializerContext;
