using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.ReadingLevels;

/// <summary>Holds every text against what a worried person can read; a text may be waived up to the hard limits.</summary>
/// <remarks>
/// A reading age of 9 to 11 years: NHS content style guide and a survey of publishers of health texts; grade 6, never above 8: AMA (from
/// memory), NIH. Sentences of 20 words, never above 25: common practice.
/// </remarks>
static class ReadingCheck
{
    const int PageWords = 100, SentenceWords = 20, HardSentenceWords = 25;

    const double Grade = 6, HardGrade = 8;

    /// <summary>The formulas are made for English; in other languages only sentences are held.</summary>
    public static void Report(Wording wording, ImmutableArray<ReadingWaiver> waivers, ProblemList problems)
    {
        var texts = ReadText.AllOf(wording);
        var isEnglish = wording.Language.Split('-')[0] == "en";
        foreach (var text in texts)
        {
            var isWaived = waivers.Any(w => w.Text == text.Name);
            if (text.Counts.LongestSentence is > SentenceWords and var longest && (longest > HardSentenceWords || !isWaived))
                problems.Add(Codes.SentenceTooLong, text.Spot, $"A sentence of \"{text.Name}\" has {longest} words.", $"Cut it in two: at most {SentenceWords} words, with a waiver at most {HardSentenceWords}.");
            if (isEnglish && text.Counts.Words >= PageWords && text.Grade is > Grade and var grade && (grade > HardGrade || !isWaived))
                problems.Add(Codes.TextTooHard, text.Spot, FormattableString.Invariant($"\"{text.Name}\" reads like grade {grade:0.0}."), $"Write shorter words and sentences: at most grade {Grade}, with a waiver at most {HardGrade}.");
        }

        foreach (var stray in waivers.Where(w => texts.All(t => t.Name != w.Text)))
            problems.AddUnknown(Codes.UnknownName, stray.Spot, "text", stray.Text, texts.Select(t => t.Name));
    }
}
