using System.Collections.Immutable;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Clinic.Tests.Visits;

/// <summary>
/// What is recorded closes what it forbids, whatever is answered. That drops are shut by a hole, an operation on the ear, an allergy and an
/// infection is said by NICE NG98 1.2 and by the product information of ear drops ([S12] to [S15], [S44] in dialogs/sources.md).
/// </summary>
public sealed class RecordedFindingsTests
{
    static Edition Edition => SomeEdition.Served.Edition;

    static ImmutableArray<RecordedFact> FactsOf(params ImmutableArray<SeenFinding> findings) =>
        VisitFacts.Of(Edition, findings, RandomPatient.Now - Duration.FromHours(3));

    static SeenFinding Seen(VisitFinding finding, Ear ear) => new(finding.Id, finding.About == About.Ear ? ear : null);

    static ImmutableArray<SeenFinding> SomeOf(Random random) =>
        [.. Edition.Dialog.Findings.Where(_ => random.Next(6) == 0).Select(f => Seen(f, (Ear)random.Next(2)))];

    public static TheoryData<string> ThatShutDrops { get; } =
    [
        "suction", "water", "hand tools", "wax left on purpose", "sore skin", "hole", "infection", "operation on the ear", "narrow canal",
        "allergy to ear drops", "keep it dry",
    ];

    [Theory]
    [MemberData(nameof(ThatShutDrops))]
    public void No_answers_bring_drops_against_a_finding(string name)
    {
        var finding = Edition.Dialog.Findings.Single(f => f.Id == name);
        for (var seed = 0; seed < 60; seed++)
        {
            var told = new RandomPatient(seed).Talk(SomeEdition.Served, FactsOf(Seen(finding, Ear.Left)));
            Assert.DoesNotContain(told.Advice, a => a.Id == "softening drops" && (finding.About == About.Person || a.Ear is Ear.Left or Ear.Either or null));
        }
    }

    [Fact]
    public void Drops_are_given_to_some_of_these_people_without_a_record() =>
        Assert.Contains(Enumerable.Range(0, 60), seed => new RandomPatient(seed).Talk(SomeEdition.Served, []).Advice.Any(a => a.Id == "softening drops"));

    [Fact]
    public void What_is_recorded_makes_nothing_less_urgent_and_adds_nothing_to_do_that_it_forbids()
    {
        var random = new Random(20261126);
        for (var seed = 0; seed < 400; seed++)
        {
            var findings = SomeOf(random);
            var patient = new RandomPatient(seed);
            var without = patient.Talk(SomeEdition.Served, []);
            var with = patient.Talk(SomeEdition.Served, FactsOf(findings));

            Assert.True(with.Rank <= without.Rank, $"Seed {seed}: {string.Join(", ", findings)} made \"{without.Level}\" into \"{with.Level}\".");
            foreach (var item in with.Advice.Where(a => a.Kind == AdviceTold.ToDo))
                Assert.False(IsForbidden(item, FactsOf(findings)), $"Seed {seed}: {item} against {string.Join(", ", findings)}.");
        }
    }

    [Fact]
    public void Nothing_that_is_recorded_is_asked()
    {
        for (var seed = 0; seed < 60; seed++)
        {
            var recorded = FactsOf(SomeOf(new Random(seed)));
            var patient = new RandomPatient(seed);
            patient.Talk(SomeEdition.Served, recorded);

            Assert.DoesNotContain(patient.Asked, asked => recorded.Any(r => r.Fact == asked.Fact && (r.Ear is null || r.Ear == asked.Ear)));
        }
    }

    /// <summary>Read from the tables themselves, not by the diagrams: a condition of "never if" that the recorded facts alone make true.</summary>
    static bool IsForbidden(AdviceTold told, ImmutableArray<RecordedFact> recorded)
    {
        var dialog = Edition.Dialog;
        var item = dialog.Advice.Single(a => a.Id == told.Id);
        return item.NeverIf.Any(Holds);

        bool Holds(Condition condition) => condition.Of.IsNamedFact
            ? condition.Values.Contains(dialog.NamedFacts[condition.Of.Index].Values.IndexOf("yes")!.Value)
                && dialog.NamedFacts[condition.Of.Index].Rows.Any(r => r.Conditions.All(Holds) && !r.Conditions.IsEmpty)
            : recorded.Any(r => dialog.Facts[condition.Of.Index] is var fact && fact.Id == r.Fact && condition.Values.Contains(fact.Values.IndexOf(r.Value)!.Value)
                && (r.Ear is null || told.Ear is null || r.Ear == told.Ear || told.Ear == Ear.Either));
    }
}
