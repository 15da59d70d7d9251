using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Content;

/// <summary>What compiling gave.</summary>
/// <param name="Edition">Null if there is any problem: an edition with one fault is not served.</param>
/// <param name="Assessor">Its decisions, ready for use; null with the edition.</param>
/// <param name="Problems">All of them, in reading order.</param>
public sealed record Compilation(Edition? Edition, Assessor? Assessor, ImmutableArray<Problem> Problems);
