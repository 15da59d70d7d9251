namespace EarHelp.Conformance.Guidelines;

public sealed class GuidelineReportTests
{
    static readonly GuidelineReport Report = new(ShippedAssessment.Edition, File.ReadAllText(Repository.PathOf("dialogs/ear/left-out.md")));

    /// <summary>NICE NG98, Hearing loss in adults, 2018, updated 2023: recommendations 1.1.1 to 1.1.9 and 1.2.1 to 1.2.7; their numbers beyond 1.1.4 are from memory.</summary>
    [Fact]
    public void Every_recommendation_of_the_hearing_guideline_has_a_rule_or_a_reason()
    {
        var numbers = Report.Recommendations.SelectMany(r => r.Recommendation.Split(", ")).ToList();

        Assert.Equal(Enumerable.Range(1, 9).Select(i => $"1.1.{i}").Concat(Enumerable.Range(1, 7).Select(i => $"1.2.{i}")), numbers);
        Assert.Empty(Report.Recommendations.Where(r => r.Status == "open"));
    }

    [Fact]
    public void Nothing_is_open_in_the_report_by_source()
    {
        var report = Report.Write();
        File.WriteAllText(Path.Combine(AppContext.BaseDirectory, "conformance-report.md"), report);

        Assert.Empty(Report.Sources.Where(s => s.UsedBy.IsEmpty).Select(s => s.Source.Id));
        Assert.DoesNotContain("| open |", report, StringComparison.Ordinal);
    }
}
