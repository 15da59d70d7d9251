using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>Everything a line of output says.</summary>
/// <param name="SeenBy">Null without a limit, and until the level is settled.</param>
/// <param name="Destinations">In order; the clinic is left out where no whole visit there fits before the limit.</param>
public sealed record AssessedLine(
    JsonElement? Id,
    Assessment Result,
    Instant? SeenBy,
    ImmutableArray<Destination> Destinations,
    ImmutableArray<NamedOfEar> Warnings,
    ImmutableArray<NamedOfEar> Explanations,
    ImmutableArray<NamedOfEar> Rules);

/// <param name="Ear">Null for what speaks of the person only.</param>
public readonly record struct NamedOfEar(string Id, Ear? Ear);
