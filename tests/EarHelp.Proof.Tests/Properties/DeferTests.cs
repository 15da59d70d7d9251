using System.Collections.Frozen;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Tests.Properties;

public sealed class DeferTests
{
    [Fact]
    public void Somebody_who_can_reach_no_destination_that_is_always_open_is_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Places, "| hospital | always | - |", "| hospital | always | where now: near |"));

        var found = EditionProof.Of(broken).Errors.OfType<NobodyToSee>();

        Assert.Equal(
            [
                "where now: far, bleeding: oozing, hours since the nip: 25 hours, everything else no | 279194916 | rules.md:12",
                "where now: far, swelling: slight, everything else no | 6738732 | rules.md:15",
            ],
            found.Select(f => f.InBrief()));
    }

    [Fact]
    public void An_outcome_that_does_not_say_who_decides_is_found()
    {
        var whole = SmallEdition.Whole;
        var wording = whole.Wordings["en"];
        var silent = wording with { Outcomes = wording.Outcomes.ToFrozenDictionary(o => o.Key, o => o.Key == "now" ? o.Value with { WhoDecides = Prose.Empty } : o.Value) };

        var found = (whole with { Wordings = new[] { silent }.ToFrozenDictionary(w => w.Language) }).OnlyError(PropertyNames.Defer);

        Assert.Equal("Faint: yes, everything else no | 4002806808 | outcomes-now.md:8, levels.md:8", found.InBrief());
    }

    [Fact]
    public void An_outcome_that_names_no_time_for_an_answer_is_found()
    {
        var broken = SmallEdition.Changed(("content/en/outcomes.md", "Go to the hospital by {answer by}.", "Go to the hospital."));

        var found = EditionProof.Of(broken).Errors.Where(f => f.Breaks == PropertyNames.Defer).ToArray();

        Assert.Equal("swelling: slight, everything else no | 13477464 | outcomes.md:28, levels.md:10", found[^1].InBrief());
        Assert.Contains("{answer by}", found[^1].Fault, StringComparison.Ordinal);
    }
}
