using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Triage.Texts;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Reviews;

/// <summary>Pages whose review is overdue. Not a fault: staff are warned, and patients get an answer for as long as its grace lasts.</summary>
public static class ReviewsDue
{
    const string ReviewBy = "review by";

    /// <summary>In the order of the files; never throws on any sources.</summary>
    public static ImmutableArray<ReviewDue> Of(ImmutableArray<SourceFile> sources, LocalDate today)
    {
        var due = ImmutableArray.CreateBuilder<ReviewDue>();
        foreach (var source in sources.Where(s => SourceFolder.IsCompiled(s.Path)).OrderBy(s => s.Path, StringComparer.Ordinal))
        {
            var settings = PageReader.Read(source, new ProblemList()).Settings;
            if (settings.Find(ReviewBy) is { } by && LocalDatePattern.Iso.Parse(by.Value) is { Success: true, Value: var day } && day < today)
                due.Add(new ReviewDue(by.ValueSpot, day, settings.Find("owner")?.Value ?? ""));
        }

        return due.ToImmutable();
    }
}

/// <param name="By">The last day on which the page counted as reviewed.</param>
/// <param name="Owner">Who answers for it; empty if the page does not say.</param>
public sealed record ReviewDue(SourceSpot Spot, LocalDate By, string Owner);
