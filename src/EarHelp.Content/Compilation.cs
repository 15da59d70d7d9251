using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Content;

/// <summary>What came of the sources.</summary>
/// <param name="Edition">Null if there is any problem: an edition with one fault is not served.</param>
/// <param name="Assessor">Its decisions, ready for use; null with the edition.</param>
/// <param name="Problems">All of them, in the order of files and lines.</param>
public sealed record Compilation(Edition? Edition, Assessor? Assessor, ImmutableArray<Problem> Problems)
{
    /// <summary>
    /// The decisions without what is missing, where the only faults are names that are not there: a row taken out, a fact no longer asked.
    /// It tells their author which patients would miss it, and is never served. Null without faults, and after any other fault.
    /// </summary>
    public Dialog? WithoutTheMissing { get; init; }
}
