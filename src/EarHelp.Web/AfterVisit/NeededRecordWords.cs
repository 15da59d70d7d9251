using System.Collections.Immutable;
using EarHelp.Clinic.Visits;

namespace EarHelp.Web.AfterVisit;

/// <summary>What an edition must word so that visits can be recorded; one that lacks any is not served.</summary>
public static class NeededRecordWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "record list", "record list hint", "record none", "record new", "record by", "record again",
        "record whose", "record heading", "record hint", "record when", "record when hint", "record when wrong", "record left", "record right", "record person", "record save",
        "record done", "record learnt", "record found", "record advised",
        "record asked", "record email", "record email hint", "record agreed", "record plan", "record not agreed", "record saved heading", "record saved", "record code", "record code hint", "record link once",
        "record corrected", "record corrected why", "record earlier", "correct open", "correct heading", "correct hint", "correct reason", "correct reason hint", "correct save",
        .. Enum.GetValues<VisitFault>().Select(RecordForm.KeyOf).Distinct(),
    ];
}
