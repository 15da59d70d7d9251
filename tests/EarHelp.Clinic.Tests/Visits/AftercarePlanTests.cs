using System.Collections.Immutable;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Clinic.Tests.Visits;

/// <summary>The shipped plan after a visit, against what was found.</summary>
public sealed class AftercarePlanTests
{
    static readonly LocalDate Day = new(2026, 11, 24);

    static Edition Edition => SomeEdition.Served.Edition;

    /// <summary>
    /// Each bound with where it comes from, as the list of evidence has it; common practice where it says so. Days from the day of the visit.
    /// </summary>
    [Theory]
    [InlineData("suction", "quiet after cleaning", 1, "Int J Audiol 2020 [S33]: the hearing shift by noise is gone by one week; quiet for 24 hours")]
    [InlineData("suction", "water after cleaning", 5, "common practice: the most cautious of 1, 2 and 4 to 5 days")]
    [InlineData("infection", "water after an infection", 10, "pharmacy text on infections of the ear canal [S103]: 7 to 10 days")]
    [InlineData("hole", "care for a possible hole", 60, "NHS, perforated eardrum [S65]: healed in about two months")]
    [InlineData("suction", "no earphones after cleaning", 2, "common practice: 24 to 48 hours")]
    [InlineData("suction", "driving after the visit", 1, "a doctors' page on suction [S37]: not while dizzy; the next day if it spun, common practice")]
    [InlineData("wax left on purpose", "what was left in", 14, "common practice: a second visit after 7 to 14 days")]
    [InlineData("looked only", "signs to watch after cleaning", 14, "common practice: 14 days count as after the visit")]
    public void A_finding_is_followed_by_its_advice_for_at_least_as_long_as_the_evidence_says(string finding, string advice, int days, string source)
    {
        var step = Assert.Single(Plan(new SeenFinding(finding, Ear.Left)), s => s.Advice == advice);

        Assert.True(step.From == Day && step.To >= Day.PlusDays(days), source);
    }

    [Fact]
    public void What_was_found_in_one_ear_is_said_of_that_ear_and_of_each_of_two()
    {
        var plan = Plan(new SeenFinding("hole", Ear.Left), new SeenFinding("suction", Ear.Right));
        var both = Plan(new SeenFinding("hole", Ear.Left), new SeenFinding("hole", Ear.Right));

        Assert.Equal([Ear.Left], plan.Where(s => s.Advice == "care for a possible hole").Select(s => s.Ear!.Value));
        Assert.Equal([Ear.Left, Ear.Right], both.Where(s => s.Advice == "care for a possible hole").Select(s => s.Ear!.Value));
        Assert.Single(plan, s => s.Advice == "signs to watch after cleaning" && s.Ear is null);
    }

    [Fact]
    public void What_was_learnt_of_the_person_alone_counts_for_both_ears() =>
        Assert.Equal([Ear.Left, Ear.Right], Plan(new SeenFinding("allergy to ear drops", null)).Where(s => s.Advice == "no drops until seen").Select(s => s.Ear!.Value));

    [Fact]
    public void The_days_of_a_plan_follow_each_other_and_each_shows_what_holds_on_it()
    {
        var plan = Plan(new SeenFinding("suction", Ear.Left), new SeenFinding("hole", Ear.Left), new SeenFinding("infection", Ear.Right));
        var days = AftercarePlan.ByDay(plan);

        Assert.Equal(Day, days[0].From);
        Assert.All(days.Zip(days.Skip(1)), pair => Assert.Equal(pair.First.To.PlusDays(1), pair.Second.From));
        foreach (var stretch in days)
        {
            for (var day = stretch.From; day <= stretch.To; day = day.PlusDays(1))
                Assert.Equal(plan.Where(s => s.From <= day && day <= s.To), stretch.Steps);
        }
    }

    /// <summary>By plain enumeration of random visits: each has a plan, and no item in it depends on an answer that could forbid it.</summary>
    [Fact]
    public void Every_visit_has_a_plan_without_an_item_that_an_answer_could_forbid()
    {
        var random = new Random(20261127);
        for (var visit = 0; visit < 2_000; visit++)
        {
            ImmutableArray<SeenFinding> seen =
                [.. Edition.Dialog.Findings.Where(_ => random.Next(5) == 0).Select(f => new SeenFinding(f.Id, f.About == About.Ear ? (Ear)random.Next(2) : null))];
            var plan = Plan(seen);

            Assert.Contains(plan, s => s.Advice == "signs to watch after cleaning");
            foreach (var item in plan.Select(s => Edition.Dialog.Advice.Single(a => a.Id == s.Advice)))
            {
                Assert.Empty(item.NeverIf);
                Assert.DoesNotContain(Edition.Dialog.Rules, r => r.Withhold.Contains(item.Index));
                Assert.NotEqual(AdviceKind.ToDo, item.Kind);
            }

            if (seen.Any(f => f.Finding == "hole"))
                Assert.All(["no drops until seen", "keep the ear dry", "no swimming or diving"], advice => Assert.Contains(plan, s => s.Advice == advice));
        }
    }

    static ImmutableArray<PlannedStep> Plan(params ImmutableArray<SeenFinding> findings) =>
        AftercarePlan.Of(Edition, new Visit("c", Edition.Id, Day.At(new LocalTime(10, 0)).InZoneLeniently(Edition.Clinic.Zone).ToInstant(), "R. Adair", findings, null));
}
