using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Tests.Properties;

public sealed class AftercareTests
{
    /// <summary>The item is forbidden by an allergy and by a large swelling, of which this finding records nothing, or the worse.</summary>
    [Theory]
    [InlineData(null, "any visit")]
    [InlineData("no", "jelly allergy settled as no")]
    [InlineData("yes", "jelly allergy")]
    public void An_item_that_an_answer_may_still_forbid_is_not_planned(string? allergy, string after)
    {
        var broken = SmallEdition.Whole.With(dialog => Planned(dialog, "cover it", allergy));

        var found = Assert.IsType<PlannedThoughForbidden>(broken.OnlyError(PropertyNames.NoHarm));
        Assert.Equal(("cover it", allergy is null ? null : "seen"), (found.Item, found.After));
        Assert.True(found.Patients > 0, after);
    }

    [Fact]
    public void An_item_without_a_gate_may_be_planned() =>
        Assert.DoesNotContain(EditionProof.Of(SmallEdition.Whole.With(dialog => Planned(dialog, "leave the scab", "yes"))).Errors, f => f is PlannedThoughForbidden);

    static Dialog Planned(Dialog dialog, string item, string? allergy)
    {
        var fact = dialog.Facts.Single(f => f.Id == "jelly allergy");
        var value = Enumerable.Range(0, fact.Values.Count).FirstOrDefault(v => fact.Values.NameOf(v) == allergy);
        var spot = fact.Spot;
        return dialog with
        {
            Findings = [new VisitFinding(0, "seen", About.Person, FindingKind.Found, [new FindingFact(fact.Index, value, null)], [], spot)],
            Aftercare = [new AftercareStep(0, dialog.Advice.Single(a => a.Id == item).Index, new Figures(0, 5), allergy is null ? [] : [0], [], [], spot)],
        };
    }
}
