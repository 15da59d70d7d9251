using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Content;

/// <summary>What came of the sources.</summary>
/// <param name="Edition">Null if there is any problem: an edition with one fault is not served.</param>
/// <param name="Assessor">Its decisions, ready for use; null with the edition.</param>
/// <param name="Problems">All of them, in the order of files and lines.</param>
public sealed record Compilation(Edition? Edition, Assessor? Assessor, ImmutableArray<Problem> Problems);
