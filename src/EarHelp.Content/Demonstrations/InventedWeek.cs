using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Demonstrations;

/// <summary>A week at the clinic that never was: who works there, who asks for what, and what is done about it.</summary>
/// <param name="FirstNames">With <paramref name="Surnames"/>: the names of patients who have no row of their own.</param>
/// <param name="Counts">How many of each kind, by the name in the file.</param>
public sealed record InventedWeek(
    ImmutableArray<InventedStaff> Staff,
    ImmutableArray<string> FirstNames,
    ImmutableArray<string> Surnames,
    FrozenDictionary<string, int> Counts,
    ImmutableArray<InventedRequest> Requests,
    ImmutableArray<InventedVisit> Visits,
    ImmutableArray<InventedCall> Calls,
    ImmutableArray<InventedIncident> Incidents,
    ImmutableArray<InventedMessage> Messages)
{
    /// <summary>The file that holds it, from the root folder.</summary>
    public const string File = "dialogs/demo/week.md";
}

/// <param name="Roles">As they are written.</param>
public sealed record InventedStaff(string Name, ImmutableArray<string> Roles, bool IsOnDuty, SourceSpot Spot);

/// <param name="Level">Rank of the level that the person is told.</param>
/// <param name="Ago">How long ago it was sent; if the clinic could not be asked for a visit then, it was a little earlier.</param>
/// <param name="Then">What happened after it.</param>
/// <param name="Word">The place or level that <paramref name="Then"/> needs, or empty.</param>
/// <param name="Note">What staff wrote, or empty.</param>
/// <param name="Needs">What helps at the visit, as it is written.</param>
public sealed record InventedRequest(string Name, int Level, TimeSpan Ago, string Then, string Word, string Note, ImmutableArray<string> Needs, SourceSpot Spot);

/// <param name="Left">Names of findings; so are <paramref name="Right"/> and <paramref name="Person"/>.</param>
/// <param name="Later">Rank of the level that the person is told after the visit; null: the link was not opened yet.</param>
public sealed record InventedVisit(
    string Name, int Level, TimeSpan Ago, ImmutableArray<string> Left, ImmutableArray<string> Right, ImmutableArray<string> Person, int? Later, SourceSpot Spot);

/// <param name="Number">Where the desk would call back; empty: it was not said.</param>
/// <param name="Ended">How the call ended.</param>
public sealed record InventedCall(string Number, int Level, TimeSpan Ago, string Ended, SourceSpot Spot);

/// <param name="By">A name of staff, or the word for a patient.</param>
public sealed record InventedIncident(string Words, string By, SourceSpot Spot);

/// <summary>A message that nobody has an answer to.</summary>
public sealed record InventedMessage(string Words, int HowOften, SourceSpot Spot);

/// <summary>What the program knows by name and the file may say.</summary>
/// <param name="Counts">All of them are needed.</param>
/// <param name="WithLevel">Happenings whose word is a level.</param>
/// <param name="WithPlace">Happenings whose word is a destination.</param>
/// <param name="Patient">Who reports an incident without being staff.</param>
public sealed record KnownInWeek(
    ImmutableArray<string> Roles,
    ImmutableArray<string> Counts,
    ImmutableArray<string> Happenings,
    ImmutableArray<string> WithLevel,
    ImmutableArray<string> WithPlace,
    ImmutableArray<string> CallEnds,
    string Patient);
