using System.Text.Json;

namespace EarHelp.Cli.Tests.Assessing;

public sealed class AssessTests
{
    [Fact]
    public void The_members_of_a_line_are_always_these_in_this_order()
    {
        var answer = AssessLines.Answer("""{"id":7,"facts":{}}""");

        Assert.Equal(
            ["id", "level", "at_least", "at_most", "rank", "seen_within", "seen_by", "destinations", "may_treat", "advice", "warnings", "explanations", "rules", "settled", "open"],
            answer.EnumerateObject().Select(p => p.Name));
    }

    [Fact]
    public void The_whole_line_of_a_settled_patient()
    {
        var (written, _) = AssessLines.Assess(
            """{"id":"a","at":"2026-11-20T09:30","facts":{"ears affected":"left","age":40,"faint":"no","noise":"roaring","noise began on":"2026-11-18","temperature":37}}""", false);

        Assert.Equal(
            """{"id":"a","level":"within a day","at_least":"within a day","at_most":"within a day","rank":1,"seen_within":"PT24H","seen_by":"2026-11-21T09:30:00Z","destinations":["this clinic","hospital"],"may_treat":"not until somebody has looked","advice":[{"id":"rest","kind":"to do","ear":null},{"id":"plug","kind":"leave alone","ear":"left"}],"warnings":[{"id":"it can get worse","ear":"left"}],"explanations":[],"rules":[{"id":"N-02","ear":"left"}],"settled":true,"open":[]}""",
            written);
    }

    [Fact]
    public void Nothing_given_leaves_the_level_open_between_the_least_and_the_most_urgent()
    {
        var answer = AssessLines.Answer("""{"facts":{}}""");

        Assert.Equal(JsonValueKind.Null, answer.GetProperty("level").ValueKind);
        Assert.Equal(JsonValueKind.Null, answer.GetProperty("rank").ValueKind);
        Assert.Equal(("no hurry", "now"), (answer.GetProperty("at_least").GetString(), answer.GetProperty("at_most").GetString()));
        Assert.Contains("faint", answer.Ids("open"));
    }

    [Fact]
    public void Unsure_counts_by_its_worst_member()
    {
        var answer = AssessLines.Answer("""{"facts":{"ears affected":"left","faint":"no","noise":"unsure"}}""");

        Assert.Equal("within a day", answer.GetProperty("level").GetString());
    }

    [Fact]
    public void Closed_fills_what_has_a_clear_value()
    {
        var answer = AssessLines.Answer("""{"facts":{"ears affected":"left","age":40}}""", isClosed: true);

        Assert.Equal("no hurry", answer.GetProperty("level").GetString());
        Assert.Contains("rest", answer.Ids("advice"));
    }

    [Fact]
    public void The_more_urgent_ear_decides_and_advice_names_its_ear()
    {
        var answer = AssessLines.Answer(
            """{"facts":{"ears affected":"both","age":40,"noise":{"left":"none","right":"roaring"}}}""", isClosed: true);

        Assert.Equal("within a day", answer.GetProperty("level").GetString());
        Assert.Equal("right", Assert.Single(answer.GetProperty("advice").EnumerateArray(), a => a.GetProperty("id").GetString() == "plug").GetProperty("ear").GetString());
    }

    [Fact]
    public void An_explanation_names_the_ear_it_is_for()
    {
        var answer = AssessLines.Answer(
            """{"facts":{"ears affected":"both","age":40,"noise":{"left":"humming","right":"none"},"noise began on":{"left":"2026-11-10"}}}""", isClosed: true);

        Assert.Equal("""[{"id":"what humming is","ear":"left"}]""", answer.GetProperty("explanations").GetRawText());
    }

    [Fact]
    public void The_clinic_is_left_out_where_no_visit_fits_before_the_limit()
    {
        // A Friday evening: the clinic opens again on Monday.
        var answer = AssessLines.Answer(
            """{"at":"2026-11-20T17:00","facts":{"ears affected":"left","age":40,"noise":"roaring","noise began on":"2026-11-19"}}""", isClosed: true);

        Assert.Equal(["hospital"], answer.Ids("destinations"));
    }

    [Theory]
    [InlineData("\"noise began on\":\"2026-11-10\"")]
    [InlineData("\"days since noise\":10")]
    public void A_limit_can_run_from_the_date_that_the_row_names(string since)
    {
        var answer = AssessLines.Answer(
            $$$"""{"at":"2026-11-20T09:30","facts":{"ears affected":"left","age":40,"noise":"humming",{{{since}}}}}""", isClosed: true);

        Assert.Equal("2026-11-24T00:00:00Z", answer.GetProperty("seen_by").GetString());
    }

    [Theory]
    [InlineData("""{"facts":{"ears affected":"both","noise":"none"}}""", "\"noise\": both ears are spoken of; give {\"left\": …, \"right\": …}.")]
    [InlineData("""{"facts":{"ears affected":"left","noise":{"right":"none"}}}""", "It gives values for an ear that \"ears affected\" rules out.")]
    [InlineData("""{"facts":{"age":0,"faint":"yes"}}""", "This is impossible: age is written and faint is written; nobody that young is asked.")]
    [InlineData("""{"facts":{"noise":"none","noise began on":"2026-11-10"}}""", "This is impossible: \"noise began on\" does not apply, since noise: written is not so.")]
    public void A_patient_who_cannot_be_is_a_fault(string line, string fault) => Assert.Equal(fault, AssessLines.Fault(line));

    [Fact]
    public void Values_for_both_ears_say_that_both_are_affected()
    {
        var answer = AssessLines.Answer("""{"facts":{"noise":{"left":"none","right":"roaring"}}}""", isClosed: true);

        Assert.Equal("within a day", answer.GetProperty("level").GetString());
        Assert.DoesNotContain("ears affected", answer.Ids("open"));
    }

    [Fact]
    public void Without_an_ear_named_the_answer_says_either()
    {
        var answer = AssessLines.Answer("""{"facts":{"noise":"roaring"}}""", isClosed: true);

        Assert.Equal("either", answer.GetProperty("rules")[0].GetProperty("ear").GetString());
    }
}
