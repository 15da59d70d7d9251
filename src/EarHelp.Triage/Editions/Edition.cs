using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Editions;

/// <summary>What clinicians wrote, compiled: immutable, addressed by the hash of its sources.</summary>
/// <param name="Id">Lower-case hex SHA-256 of the sources.</param>
/// <param name="Wordings">By language tag.</param>
public sealed record Edition(
    string Id,
    Dialog Dialog,
    ImmutableArray<Source> Sources,
    Clinic Clinic,
    EmergencyNumbers EmergencyNumbers,
    FrozenDictionary<string, Wording> Wordings);
