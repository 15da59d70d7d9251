using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>A constraint solver, which knows nothing of the diagrams, answers the same questions.</summary>
public sealed class SolverAgreesTests
{
    [Fact]
    public void On_the_shipped_edition_every_rule_level_and_item_is_reached_and_no_two_rows_disagree()
    {
        var solver = new Solver(ShippedEdition.Whole.Dialog);

        AgreesOn(solver, EditionProof.Of(ShippedEdition.Whole));
    }

    [Fact]
    public void On_the_shipped_edition_no_worse_answer_makes_anybody_less_urgent()
    {
        Assert.False(Solver.FindsFall(ShippedEdition.Whole.Dialog, ShippedEdition.Whole.Dialog.Facts));
    }

    [Fact]
    public void On_a_broken_shipped_edition_both_find_who_falls()
    {
        var dialog = ShippedEdition.Whole.Dialog;
        var row = dialog.Rules.First(r => r.Level == 1 && r.Conditions.Length == 1);
        var broken = dialog with { Rules = dialog.Rules.SetItem(row.Index, row with { Conditions = [row.Conditions[0] with { Values = row.Conditions[0].Values.Complement(2) }] }) };

        Assert.Equal(EditionProof.Of(broken).Findings.OfType<LessUrgentThoughWorse>().Any(), Solver.FindsFall(broken, broken.Facts));
    }

    [Fact]
    public void On_three_hundred_small_editions_it_agrees_on_what_is_reached_and_who_disagrees()
    {
        for (var seed = 100_000; seed < 100_300; seed++)
        {
            var dialog = new RandomDialog(seed).Make();

            AgreesOn(new Solver(dialog), EditionProof.Of(dialog));
        }
    }

    [Fact]
    public void On_two_hundred_small_editions_it_agrees_on_who_falls()
    {
        for (var seed = 110_000; seed < 110_200; seed++)
        {
            var dialog = new RandomDialog(seed).Make();
            var report = EditionProof.Of(dialog);
            foreach (var fact in dialog.Facts)
                Assert.Equal(report.Findings.OfType<LessUrgentThoughWorse>().Any(f => f.Fact == fact.Id), Solver.FindsFall(dialog, fact));
        }
    }

    static void AgreesOn(Solver solver, ProofReport report)
    {
        var unreached = report.Findings.OfType<NeverReached>().ToArray();
        var dialog = solver.Dialog;
        foreach (var rule in dialog.Rules)
            Assert.Equal(!unreached.Any(u => u.Kind == "rule" && u.Name == rule.Id), solver.Finds(solver.Patient.Matches(rule)));
        foreach (var level in dialog.Levels)
            Assert.Equal(!unreached.Any(u => u.Kind == "level" && u.Name == level.Id), solver.Finds(IsLevel(solver, level)));
        foreach (var item in dialog.Advice)
            Assert.Equal(!unreached.Any(u => u.Kind == "advice item" && u.Name == item.Id), solver.Finds(IsShownInTime(solver, item)));
        foreach (var (item, giving, withholding) in Opposites(dialog))
        {
            var both = solver.Patient.Every([solver.Patient.Matches(giving), solver.Patient.Matches(withholding)]);
            Assert.Equal(report.Findings.OfType<GivenAndWithheld>().Any(f => f.Item == item.Id && f.Giving == giving.Id && f.Withholding == withholding.Id), solver.Finds(both));
        }
    }

    static Google.OrTools.Sat.ILiteral IsLevel(Solver solver, Level level) =>
        solver.Patient.Every([solver.Patient.IsAtLeastAsUrgentAs(level.Rank), solver.Patient.IsAtLeastAsUrgentAs(level.Rank - 1).Not()]);

    static Google.OrTools.Sat.ILiteral IsShownInTime(Solver solver, AdviceItem item) =>
        item.HasGate ? solver.Patient.Every([solver.Patient.IsShown(item), solver.Patient.IsAtLeastAsUrgentAs(0).Not()]) : solver.Patient.IsShown(item);

    static IEnumerable<(AdviceItem Item, Rule Giving, Rule Withholding)> Opposites(Dialog dialog) =>
        from item in dialog.Advice
        from giving in dialog.Rules.Where(r => r.Give.Contains(item.Index))
        from withholding in dialog.Rules.Where(r => r.Withhold.Contains(item.Index))
        select (item, giving, withholding);
}
