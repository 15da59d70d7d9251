using System.Collections.Frozen;

namespace EarHelp.Content.Problems;

/// <summary>Faults that come of a name that is not there, and leave everything else as readable as it was.</summary>
static class MissingNames
{
    static readonly FrozenSet<string> OfThem = FrozenSet.Create(
        StringComparer.Ordinal,
        Codes.UnknownName, Codes.UnusedFact, Codes.WrongNumber, Codes.UnusedSource, Codes.MissingWords, Codes.WordsForNothing, Codes.UnknownBlank);

    public static bool Only(ProblemList problems) => problems.Only(OfThem);
}
