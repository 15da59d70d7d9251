namespace EarHelp.Conformance.Guidelines;

/// <summary>
/// NICE guideline NG98, Hearing loss in adults: assessment and management (2018, updated 2023), recommendations 1.1.2 and 1.1.3:
/// sudden (within 3 days) in the past 30 days: seen within 24 hours; sudden, more than 30 days ago: within 2 weeks; worsened
/// over 4 to 90 days: within 2 weeks. Both bounds of each range belong to it.
/// </summary>
public class HearingGuidelineTests
{
    [Theory]
    [InlineData(0, 0, "within a day")]
    [InlineData(3, 3, "within a day")]
    [InlineData(3, 30, "within a day")]
    [InlineData(3, 31, "in two weeks")]
    [InlineData(0, 31, "in two weeks")]
    [InlineData(4, 4, "in two weeks")]
    [InlineData(4, 30, "in two weeks")]
    [InlineData(4, 31, "in two weeks")]
    [InlineData(30, 31, "in two weeks")]
    [InlineData(90, 90, "in two weeks")]
    [InlineData(90, 400, "in two weeks")]
    [InlineData(91, 91, "no hurry")]
    [InlineData(91, 400, "no hurry")]
    public void A_change_is_seen_as_soon_as_its_speed_and_age_say(int worsenedOver, int daysAgo, string level)
    {
        var assessed = ShippedAssessment.Of(Hearing("clear ear", $"{worsenedOver}", $"{daysAgo}"));

        Assert.Equal(level, assessed.Level);
    }

    [Theory]
    [InlineData("""{"from": 3, "to": 4}""", "10", "within a day")]
    [InlineData("3", """{"from": 30, "to": 31}""", "within a day")]
    [InlineData("""{"from": 90, "to": 91}""", "100", "in two weeks")]
    [InlineData("\"unsure\"", "10", "within a day")]
    public void A_time_that_lies_across_a_bound_counts_on_its_urgent_side(string worsenedOver, string daysAgo, string level)
    {
        var assessed = ShippedAssessment.Of(Hearing("clear ear", worsenedOver, daysAgo));

        Assert.Equal(level, assessed.Level);
    }

    /// <summary>NG98 1.1.2 speaks of hearing loss "not explained by external or middle ear causes": nobody has looked, so nothing explains it.</summary>
    [Fact]
    public void Nobody_has_looked_is_not_an_explanation_and_opens_no_drops()
    {
        var assessed = ShippedAssessment.Of(Hearing("nobody", "2", "2"));

        Assert.Equal("within a day", assessed.Level);
        Assert.DoesNotContain("softening drops", assessed.Advice);
        Assert.Contains("no drops until seen", assessed.Advice);
        Assert.False(assessed.MayTreat);
    }

    static string Hearing(string lookedAt, string worsenedOver, string daysAgo) =>
        $$"""
        "age": 45, "hearing": "reduced", "looked at": "{{lookedAt}}", "hearing worsened over": {{worsenedOver}}, "days since hearing changed": {{daysAgo}}
        """;
}
