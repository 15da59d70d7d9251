using System.Collections.Frozen;

namespace EarHelp.Content.Problems;

/// <summary>Every code, permanent and never used again for something else. Each has a page in this folder.</summary>
public static class Codes
{
    /// <summary>
    /// What is asked of authors only: with such a fault an edition decides and says what it did before it was looked for. A check that a later
    /// version adds and that an edition in service may fail belongs here.
    /// </summary>
    public static FrozenSet<string> OfAuthorsOnly { get; } =
        new[] { TermUnexplained, SentenceTooLong, TextTooHard, ClassUnused, PhraseForTwoValues, TriggerNeverFires, BeginningTooShort }.ToFrozenSet(StringComparer.Ordinal);

    // Files and Markdown.
    public const string NotUtf8 = "EH0001";
    public const string SettingsUnreadable = "EH0002";
    public const string UnknownSetting = "EH0003";
    public const string MissingSetting = "EH0004";
    public const string WrongSetting = "EH0005";
    public const string NotATable = "EH0006";
    public const string WrongCellCount = "EH0007";
    public const string EmptyCell = "EH0008";
    public const string TableNearMiss = "EH0009";
    public const string MissingColumn = "EH0010";
    public const string UnknownColumn = "EH0011";
    public const string DoubledColumn = "EH0012";
    public const string RawHtml = "EH0013";
    public const string ForbiddenLink = "EH0014";
    public const string UnsupportedMarkdown = "EH0015";
    public const string UnknownBlank = "EH0016";
    public const string BrokenBraces = "EH0017";
    public const string InvisibleCharacter = "EH0018";
    public const string TooDeeplyNested = "EH0019";
    public const string NothingToCompile = "EH0020";
    public const string EmptyFile = "EH0021";

    // Names and facts.
    public const string MalformedName = "EH0101";
    public const string DoubledName = "EH0102";
    public const string UnknownName = "EH0103";
    public const string UnreadableCell = "EH0104";
    public const string UnknownValue = "EH0105";
    public const string ConcludesNothing = "EH0107";
    public const string WrongAbout = "EH0108";
    public const string WrongValues = "EH0109";
    public const string WrongAskIn = "EH0110";
    public const string WrongWorse = "EH0111";
    public const string WrongClear = "EH0112";
    public const string WrongRedFlag = "EH0113";
    public const string AppliesTooEarly = "EH0114";
    public const string Cycle = "EH0115";
    public const string UnusedFact = "EH0116";
    public const string RequiredFact = "EH0117";
    public const string WrongNumber = "EH0118";
    public const string WrongCondition = "EH0119";
    public const string ValueOutOfRange = "EH0120";
    public const string NeverTrue = "EH0121";
    public const string WrongScreen = "EH0122";
    public const string MissingBecause = "EH0123";

    // Decision tables, levels, destinations, sources.
    public const string MissingPolicy = "EH0201";
    public const string UnknownPolicy = "EH0202";
    public const string PolicyDisagrees = "EH0203";
    public const string TooManyConditions = "EH0204";
    public const string UnknownConclusion = "EH0205";
    public const string MissingReason = "EH0206";
    public const string MissingSource = "EH0207";
    public const string WrongWhere = "EH0208";
    public const string OtherwiseTooMild = "EH0209";
    public const string NoOtherwise = "EH0210";
    public const string LevelOrder = "EH0211";
    public const string RedFlagNeeded = "EH0212";
    public const string UnusedSource = "EH0214";
    public const string WrongTreat = "EH0215";
    public const string GivenAndWithheld = "EH0216";
    public const string WrongCountsFrom = "EH0217";
    public const string WrongChoice = "EH0218";
    public const string UnsuitedPolicy = "EH0219";
    public const string WrongDuration = "EH0221";
    public const string OrderMissing = "EH0227";
    public const string NotOneDecision = "EH0228";

    public const string TooLarge = "EH0229";
    public const string WrongFigures = "EH0230";
    public const string WrongFinding = "EH0231";
    public const string WrongAftercare = "EH0232";

    // Words.
    public const string MissingWords = "EH0301";
    public const string WordsForNothing = "EH0302";
    public const string MissingPart = "EH0303";
    public const string UnknownPart = "EH0304";
    public const string WrongOption = "EH0305";
    public const string UnknownKindOfWords = "EH0306";
    public const string TextOutsideSection = "EH0307";
    public const string MissingInterfaceText = "EH0308";
    public const string MissingPage = "EH0309";
    public const string PhoneWithoutTwin = "EH0310";
    public const string AdviceInProse = "EH0311";
    public const string MissingAgain = "EH0312";
    public const string AnswerTooLong = "EH0313";
    public const string TooFewWordings = "EH0314";
    public const string WordingTwice = "EH0315";
    public const string ReviewOrder = "EH0316";
    public const string TermUnexplained = "EH0317";
    public const string SentenceTooLong = "EH0318";
    public const string TextTooHard = "EH0319";
    public const string WrongWaiver = "EH0320";
    public const string PhraseTwice = "EH0321";
    public const string FactWithoutPhrases = "EH0322";
    public const string ClassUnused = "EH0323";
    public const string PhraseForTwoValues = "EH0324";
    public const string TriggerNeverFires = "EH0325";
    public const string BeginningTooShort = "EH0326";

    // The clinic.
    public const string MissingClinicFile = "EH0401";
    public const string UnknownTimeZone = "EH0402";
    public const string WrongOpeningHours = "EH0403";
    public const string WrongDate = "EH0404";
    public const string HolidaysEnd = "EH0405";
    public const string ClinicWithoutTwin = "EH0406";
    public const string NoFallbackNumber = "EH0407";
    public const string WrongVisitRow = "EH0408";

    // Example patients.
    public const string MissingExamplePart = "EH0501";
    public const string UnknownMust = "EH0502";
    public const string WrongClosed = "EH0503";
    public const string ImpossibleExample = "EH0504";
    public const string ExampleOtherwise = "EH0505";
}
