namespace EarHelp.Content.Problems;

/// <summary>The permanent codes of faults. A code is never used again for something else; each has a page beside this file.</summary>
static class Codes
{
    // Files and settings.
    public const string NotText = "EH0001";
    public const string NoDialog = "EH0002";
    public const string BadSettings = "EH0003";
    public const string UnknownSetting = "EH0004";
    public const string MissingSetting = "EH0005";
    public const string BadSettingValue = "EH0006";

    // Tables.
    public const string UnknownTable = "EH0010";
    public const string MissingColumn = "EH0011";
    public const string UnknownColumn = "EH0012";
    public const string WrongCellCount = "EH0013";
    public const string EmptyCell = "EH0014";
    public const string TooManyConditions = "EH0015";
    public const string MissingTable = "EH0016";

    // Names.
    public const string BadName = "EH0020";
    public const string NameTaken = "EH0021";
    public const string UnknownName = "EH0022";
    public const string Cycle = "EH0023";

    // Facts.
    public const string BadValues = "EH0030";
    public const string BadAbout = "EH0031";
    public const string BadAskIn = "EH0032";
    public const string BadWorse = "EH0033";
    public const string BadClear = "EH0034";
    public const string BadRedFlag = "EH0035";
    public const string RedFlagNeeded = "EH0036";
    public const string LateCondition = "EH0037";
    public const string UnusedFact = "EH0038";
    public const string BadNumber = "EH0039";
    public const string WrongKnownFact = "EH0040";
    public const string BadScreen = "EH0041";

    // Cells and conditions.
    public const string BadCell = "EH0050";
    public const string UnknownValue = "EH0051";
    public const string OutOfRange = "EH0052";
    public const string BadCondition = "EH0053";

    // Rules.
    public const string BadPolicy = "EH0060";
    public const string BadWhere = "EH0061";
    public const string NotAlwaysOpen = "EH0062";
    public const string OtherwiseTooLate = "EH0063";
    public const string NoOtherwise = "EH0064";
    public const string NoReason = "EH0065";
    public const string BadConclusion = "EH0066";
    public const string LevelOrder = "EH0067";
    public const string BadLimit = "EH0068";
    public const string BadHours = "EH0069";
    public const string BadKind = "EH0070";
    public const string ReachedByUnsure = "EH0071";

    // Sources.
    public const string UnknownSource = "EH0080";
    public const string UnusedSource = "EH0081";
    public const string NoSource = "EH0082";

    // Words.
    public const string MissingWords = "EH0090";
    public const string WordsForNothing = "EH0091";
    public const string BadWordsKind = "EH0092";
    public const string MissingLabel = "EH0093";
    public const string MissingSecondWording = "EH0094";
    public const string BadOption = "EH0095";
    public const string BadLink = "EH0096";
    public const string RawHtml = "EH0097";
    public const string BadBlank = "EH0098";
    public const string MissingInterfaceText = "EH0099";
    public const string MissingPage = "EH0100";
    public const string PhoneWithoutTwin = "EH0101";
    public const string AdviceInProse = "EH0102";
    public const string MissingLanguage = "EH0103";

    // The clinic.
    public const string BadClinicTable = "EH0110";
    public const string HolidaysEnded = "EH0111";

    // The whole.
    public const string TooLarge = "EH0120";
}
