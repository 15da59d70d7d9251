using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Clinic.Tests.Visits;

public sealed class VisitFactsTests
{
    /// <summary>Late on a summer evening at the clinic, where it is already the next day by then in UTC plus one.</summary>
    static readonly Instant Visit = Instant.FromUtc(2026, 7, 1, 22, 30);

    [Fact]
    public void A_finding_of_one_ear_sets_its_facts_and_those_of_the_person()
    {
        var facts = VisitFacts.Of(SomeEdition.Served.Edition, [new SeenFinding("hole", Ear.Left)], Visit);

        Assert.Contains(new RecordedFact("hole ever", Ear.Left, "yes", null), facts);
        Assert.Contains(facts, f => f is { Fact: "hole found", Ear: null, Value: "yes", Until: not null });
    }

    [Fact]
    public void What_counts_for_14_days_counts_to_the_end_of_the_14th_day_at_the_clinic()
    {
        var facts = VisitFacts.Of(SomeEdition.Served.Edition, [new SeenFinding("suction", Ear.Left), new SeenFinding("suction", Ear.Right)], Visit);

        var zone = SomeEdition.Served.Edition.Clinic.Zone;
        var until = zone.AtStartOfDay(Visit.InZone(zone).Date.PlusDays(15)).ToInstant();
        Assert.Equal([new("ear cleaned lately", null, "yes", until), new("suction was used", null, "yes", until)], facts.AsEnumerable());
    }

    [Theory]
    [InlineData(new[] { "hole" }, new[] { "hole", "infection" }, 0, false)]
    [InlineData(new[] { "hole", "looked only" }, new[] { "hole" }, 0, false)]
    [InlineData(new[] { "hole" }, new[] { "drum seen" }, 0, true)]
    [InlineData(new[] { "operation on the ear" }, new[] { "hole" }, 0, true)]
    [InlineData(new[] { "suction" }, new[] { "suction" }, -1, true)]
    [InlineData(new[] { "suction" }, new[] { "suction" }, 1, false)]
    [InlineData(new[] { "a name of an older edition" }, new[] { "suction" }, 0, true)]
    public void Only_what_closes_less_or_for_less_long_needs_a_reason(string[] was, string[] now, int daysLater, bool needsReason)
    {
        var earlier = new Visit("c", "edition", Visit, "R. Adair", [.. was.Select(f => new SeenFinding(f, Ear.Left))], null);
        var next = earlier.Corrected("edition", Visit + Duration.FromDays(daysLater), "R. Adair", [.. now.Select(f => new SeenFinding(f, Ear.Left))], new Correction(Visit, ""));

        Assert.Equal(needsReason, VisitFacts.IsTakenBack(SomeEdition.Served.Edition, earlier, next));
    }

    [Fact]
    public void A_finding_that_goes_to_the_other_ear_is_taken_back_from_the_first()
    {
        var earlier = new Visit("c", "edition", Visit, "R. Adair", [new SeenFinding("grommet", Ear.Left)], null);
        var next = earlier.Corrected("edition", Visit, "R. Adair", [new SeenFinding("grommet", Ear.Right)], new Correction(Visit, ""));

        Assert.True(VisitFacts.IsTakenBack(SomeEdition.Served.Edition, earlier, next));
    }

    [Fact]
    public void Each_version_keeps_those_before_it_once()
    {
        var first = new Visit("c", "edition", Visit, "R. Adair", [new SeenFinding("hole", Ear.Left)], "before");
        var third = first.Corrected("edition", Visit, "K. Ness", [], new Correction(Visit, "x")).Corrected("later edition", Visit, "R. Adair", first.Findings, new Correction(Visit, "y"));

        Assert.Equal((3, "before", "later edition"), (third.Version, third.Before, third.EditionId));
        Assert.Equal(["R. Adair", "K. Ness"], third.Earlier.Select(v => v.By));
        Assert.All(third.Earlier, v => Assert.Empty(v.Earlier));
        Assert.True(third.SaysTheSame(first));
    }

    [Theory]
    [InlineData("suction", Ear.Left, null)]
    [InlineData("dizzy in the chair", null, null)]
    [InlineData("suction", null, VisitFault.WrongEar)]
    [InlineData("suction", Ear.Either, VisitFault.WrongEar)]
    [InlineData("dizzy in the chair", Ear.Left, VisitFault.WrongEar)]
    [InlineData("vacuumed", Ear.Left, VisitFault.UnknownFinding)]
    public void A_finding_is_of_an_ear_or_of_the_person(string finding, Ear? ear, VisitFault? fault) =>
        Assert.Equal(fault, VisitFacts.FaultOf(SomeEdition.Served.Edition, [new SeenFinding(finding, ear)], Visit, Visit));

    [Fact]
    public void A_visit_has_been_not_too_long_ago_and_has_a_finding()
    {
        var edition = SomeEdition.Served.Edition;
        SeenFinding[] some = [new("suction", Ear.Left)];

        Assert.Equal(VisitFault.InTheFuture, VisitFacts.FaultOf(edition, [.. some], Visit + Duration.FromMinutes(1), Visit));
        Assert.Equal(VisitFault.TooLongAgo, VisitFacts.FaultOf(edition, [.. some], Visit - Duration.FromDays(91), Visit));
        Assert.Equal(VisitFault.NothingTicked, VisitFacts.FaultOf(edition, [], Visit, Visit));
        Assert.Equal(VisitFault.NotOffered, VisitFacts.FaultOf(edition with { Clinic = edition.Clinic with { VisitKeptDays = 0 } }, [.. some], Visit, Visit));
    }
}
