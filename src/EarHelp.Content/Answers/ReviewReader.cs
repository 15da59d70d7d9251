using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Answers;

/// <summary>Reads the settings that a page with answers must have: who answers for it, until when, for whom, by which evidence.</summary>
static class ReviewReader
{
    const string Title = "title", Owner = "owner", ReviewedOn = "reviewed on", ReviewBy = "review by", AppliesTo = "applies to", Evidence = "evidence";

    static readonly string[] Needed = [Title, Owner, ReviewedOn, ReviewBy, AppliesTo, Evidence];

    public static (string Title, PageReview Review) Read(Page page, SourceReader sources, ProblemList problems)
    {
        foreach (var missing in Needed.Where(n => page.Settings.Find(n) is null))
            problems.Add(Codes.MissingSetting, page.Settings.Spot, $"The setting \"{missing}\" is missing.", $"Add a line \"{missing}: …\" at the top of the file.");
        var (reviewedOn, reviewBy) = (Day(page, ReviewedOn), Day(page, ReviewBy));
        if (reviewedOn is { } from && reviewBy is { } to && to <= from)
            problems.Add(Codes.ReviewOrder, page.Settings.Find(ReviewBy)!.ValueSpot, "The page is to be reviewed again before it was reviewed.", "Write a later day after \"review by:\".");
        return (TextOf(page, Title), new PageReview(TextOf(page, Owner), reviewedOn ?? default, reviewBy ?? default, TextOf(page, AppliesTo), ReadEvidence(page, sources)));
    }

    static string TextOf(Page page, string name) => page.Settings.Find(name)?.Value ?? "";

    // A day that cannot be read was reported with the other settings.
    static LocalDate? Day(Page page, string name) =>
        page.Settings.Find(name) is { } setting && LocalDatePattern.Iso.Parse(setting.Value) is { Success: true } day ? day.Value : null;

    /// <summary>Names of sources stand without brackets here: a bracket would begin a list of YAML.</summary>
    static ImmutableArray<string> ReadEvidence(Page page, SourceReader sources)
    {
        if (page.Settings.Find(Evidence) is not { Value.Length: > 0 } evidence)
            return [];
        var names = evidence.Value.Split(',', StringSplitOptions.TrimEntries).Select(n => n.Contains(' ', StringComparison.Ordinal) ? n : $"[{n}]");
        return sources.Refer(new PageCell(string.Join(", ", names), 0, evidence.ValueSpot), "The page");
    }
}
