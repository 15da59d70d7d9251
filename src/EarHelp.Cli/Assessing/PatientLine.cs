using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Content.Patients;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>One line of JSON as it was written: one person at one moment.</summary>
/// <param name="Id">As given (a text, a number or null), to be given back.</param>
public sealed record PatientLine(JsonElement? Id, Instant At, ImmutableArray<GivenValue> Given);

/// <summary>A line that was read, or everything that is wrong with it.</summary>
public sealed record ReadLine(PatientLine? Patient, ImmutableArray<string> Faults)
{
    public static ReadLine Wrong(params ImmutableArray<string> faults) => new(null, faults);
}
