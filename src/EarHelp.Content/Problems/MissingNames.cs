using System.Collections.Frozen;

namespace EarHelp.Content.Problems;

/// <summary>Faults that come of a name that is not there, and leave everything else as readable as it was.</summary>
static class MissingNames
{
    static readonly FrozenSet<string> OfPages = FrozenSet.Create(
        StringComparer.Ordinal,
        Codes.UnknownName, Codes.UnusedFact, Codes.WrongNumber, Codes.UnusedSource, Codes.WrongSetting, Codes.MissingWords, Codes.WordsForNothing, Codes.UnknownBlank, Codes.UnknownPart, Codes.NoOtherwise);

    static readonly FrozenSet<string> OfExamples = FrozenSet.Create(StringComparer.Ordinal, Codes.UnknownName);

    public static bool AreAllOf(ProblemList pages) => pages.Only(OfPages);

    public static bool AreAllOfExamples(ProblemList examples) => examples.Only(OfExamples);
}
