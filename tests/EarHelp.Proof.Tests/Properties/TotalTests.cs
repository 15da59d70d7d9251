using System.Collections.Frozen;
using EarHelp.Proof.Findings;

namespace EarHelp.Proof.Tests.Properties;

public sealed class TotalTests
{
    [Fact]
    public void Somebody_whom_no_row_foresees_has_no_level()
    {
        var broken = SmallEdition.Whole.With(d => d with { Rules = [.. d.Rules.Where(r => !r.IsOtherwise)] });

        Assert.Equal("swelling: slight, everything else no | 13477464 | rules.md:14", broken.OnlyError(PropertyNames.Total).InBrief());
    }

    [Fact]
    public void Somebody_whom_no_row_lets_the_clinic_treat_or_not_is_found()
    {
        var broken = SmallEdition.Whole.With(d => d with { TreatRules = d.TreatRules.RemoveAt(3) });

        Assert.Equal("Age 18, everything else no | 438651456 | treat.md:12", broken.OnlyError(PropertyNames.Total).InBrief());
    }

    [Fact]
    public void A_level_without_an_outcome_page_in_one_language_is_found()
    {
        var whole = SmallEdition.Whole;
        var wording = whole.Wordings["en"];
        var without = wording with { Outcomes = wording.Outcomes.Where(o => o.Key != "within a day").ToFrozenDictionary() };
        var broken = whole with { Wordings = new[] { without }.ToFrozenDictionary(w => w.Language) };

        var found = broken.OnlyError(PropertyNames.Total);

        Assert.Equal("bleeding: oozing, hours since the nip: 25 hours, everything else no | 558389832 | levels.md:9", found.InBrief());
        Assert.Contains("\"within a day\" has no outcome page in \"en\"", found.Fault, StringComparison.Ordinal);
    }
}
