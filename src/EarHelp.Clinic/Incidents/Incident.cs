using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Clinic.Incidents;

/// <summary>That something went wrong, or nearly did, with what decided at that time. It is erased with its conversation.</summary>
/// <param name="Id">An identifier that is no secret.</param>
/// <param name="By">Identifier of the account, or <see cref="ByPatient"/>.</param>
/// <param name="Edition">Which edition told the last outcome.</param>
/// <param name="Rules">Every rule among the reasons of that outcome.</param>
/// <param name="Words">What happened, as it was written.</param>
public sealed record Incident(string Id, Instant At, string By, string Conversation, string Edition, ImmutableArray<string> Rules, string Words)
{
    public const string ByPatient = "patient";
}
