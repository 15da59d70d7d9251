namespace EarHelp.Content.ReadingLevels;

/// <summary>How hard a text is to read, by formulas of English. A formula is only a proxy: a text is read aloud as well.</summary>
public static class ReadingScores
{
    /// <summary>A school grade of the United States. Source: Kincaid and others, 1975.</summary>
    public static double FleschKincaidGrade(TextCounts text) => (0.39 * WordsInSentence(text)) + (11.8 * SyllablesInWord(text)) - 15.59;

    /// <summary>100 is very easy, 0 very hard. Source: Flesch, 1948.</summary>
    public static double FleschReadingEase(TextCounts text) => 206.835 - (1.015 * WordsInSentence(text)) - (84.6 * SyllablesInWord(text));

    /// <summary>A school grade. Source: McLaughlin, 1969; from memory.</summary>
    public static double Smog(TextCounts text) => 3.1291 + (1.043 * Math.Sqrt(text.Polysyllables * (30d / text.Sentences)));

    /// <summary>A school grade, by letters. Source: Coleman and Liau, 1975; from memory.</summary>
    public static double ColemanLiau(TextCounts text) =>
        (0.0588 * (100d * text.Letters / text.Words)) - (0.296 * (100d * text.Sentences / text.Words)) - 15.8;

    /// <summary>A school grade, by letters. Source: Smith and Senter, 1967; from memory.</summary>
    public static double AutomatedReadability(TextCounts text) => (4.71 * text.Letters / text.Words) + (0.5 * WordsInSentence(text)) - 21.43;

    static double WordsInSentence(TextCounts text) => (double)text.Words / text.Sentences;

    static double SyllablesInWord(TextCounts text) => (double)text.Syllables / text.Words;
}
