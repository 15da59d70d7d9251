using System.Numerics;
using EarHelp.Proof.Findings;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>What the proof says of a thousand small editions, held against plain enumeration of all their patients.</summary>
public sealed class RandomEditionTests
{
    const int Editions = 1000;

    [Fact]
    public void Counts_are_those_of_plain_enumeration()
    {
        ForEach(50_000, (dialog, patients, _, space) =>
        {
            var results = patients.Possible.Select(p => (Patient: p, Result: patients.Reading.Read(p))).ToArray();

            Assert.Equal(patients.Possible.Length, space.Count.Of(space.Possible));
            foreach (var level in dialog.Levels)
                Assert.Equal(results.Count(r => r.Result.Rank == level.Rank), space.Count.Of(space.Where(space.Roots.Level, l => l == level.Rank)));
            foreach (var rule in dialog.Rules)
                Assert.Equal(patients.Possible.Count(p => patients.Reading.Matches(rule, p)), space.Count.Of(space.And(space.Possible, space.Matches[rule.Index])));
            foreach (var item in dialog.Advice)
                Assert.Equal(results.Count(r => r.Result.Advice[item.Index]), space.Count.Of(space.Where(space.Roots.Advice[item.Index])));
        });
    }

    [Fact]
    public void A_worse_answer_lowers_a_level_exactly_where_the_proof_says_so()
    {
        ForEach(60_000, (dialog, patients, report, space) =>
        {
            var level = patients.Assignments.ToDictionary(a => string.Join(',', a), a => patients.Reading.IsPossible(a) ? patients.Reading.Read(a).Rank : -1);
            foreach (var fact in dialog.Facts)
            {
                var falling = Falls(patients, level, fact).ToArray();
                var found = report.Findings.OfType<LessUrgentThoughWorse>().SingleOrDefault(f => f.Fact == fact.Id);

                Assert.Equal(falling.Length > 0, found is not null);
                if (found is not null)
                    Assert.Equal(CountOf(found, fact.Index), found.Patients);

                BigInteger CountOf(LessUrgentThoughWorse finding, int index)
                {
                    var from = space.Classes[index].Members.Single(m => m.Contains(fact.Values.IndexOf(finding.From)!.Value));
                    var to = space.Classes[index].Members.Single(m => m.Contains(fact.Values.IndexOf(finding.To)!.Value));
                    return falling.Where(f => from.Contains(f.Before[index]) && to.Contains(f.After[index])).Select(f => patients.KeyOf(f.Before)).Distinct().Count();
                }
            }
        });
    }

    [Fact]
    public void Rows_that_contradict_each_other_are_reached_or_decide_as_enumeration_says()
    {
        ForEach(70_000, (dialog, patients, report, _) =>
        {
            var met = dialog.Rules.Select(r => patients.Possible.Where(p => patients.Reading.Matches(r, p)).ToArray()).ToArray();
            foreach (var rule in dialog.Rules)
                Assert.Equal(met[rule.Index].Length == 0, report.Findings.OfType<NeverReached>().Any(f => f.Kind == "rule" && f.Name == rule.Id));

            var disagreeing =
                from item in dialog.Advice
                from one in dialog.Rules.Where(r => r.Give.Contains(item.Index))
                from other in dialog.Rules.Where(r => r.Withhold.Contains(item.Index))
                let both = met[one.Index].Intersect(met[other.Index]).Count()
                where both > 0
                select (item.Id, one.Id, other.Id, (BigInteger)both);
            Assert.Equal(disagreeing, report.Findings.OfType<GivenAndWithheld>().Select(f => (f.Item, f.Giving, f.Withholding, f.Patients)));

            foreach (var rule in dialog.Rules.Where(r => !r.IsOtherwise && met[r.Index].Length > 0))
                Assert.Equal(!Decides(dialog, rule, patients), report.Findings.OfType<NeverDecides>().Any(f => f.Rule == rule.Id));
        });
    }

    [Fact]
    public void An_item_harms_somebody_unsure_exactly_where_the_proof_says_so()
    {
        ForEach(80_000, (dialog, patients, report, _) =>
        {
            var possible = patients.Assignments.Where(patients.Reading.IsPossible).ToArray();
            foreach (var item in dialog.Advice.Where(a => a.Kind != AdviceKind.ToDo))
            {
                var shown = possible.Where(p => patients.Reading.Read(p).Advice[item.Index]).ToArray();
                var forbidden = possible.Where(p => item.NeverIf.Any(c => patients.Reading.Holds(c, p))).ToArray();
                var harmed = dialog.Facts.Any(f => forbidden.Select(p => Without(p, f.Index)).Intersect(shown.Select(p => Without(p, f.Index))).Any());

                Assert.Equal(harmed, report.Findings.OfType<ShownThoughForbidden>().Any(f => f.Item == item.Id));
            }
        });
    }

    static string Without(int[] patient, int fact) => string.Join(',', patient.Select((v, i) => i == fact ? -1 : v));

    static IEnumerable<(int[] Before, int[] After)> Falls(CountedPatients patients, Dictionary<string, int> level, Fact fact) =>
        from before in patients.Assignments
        let rank = level[string.Join(',', before)]
        where rank >= 0
        from worse in Enumerable.Range(0, fact.Values.Count).Skip(before[fact.Index] + 1)
        let after = (int[])[.. before[..fact.Index], worse, .. before[(fact.Index + 1)..]]
        where level[string.Join(',', after)] > rank
        select (before, after);

    static bool Decides(Dialog dialog, Rule rule, CountedPatients patients)
    {
        return patients.Possible.Where(p => patients.Reading.Matches(rule, p)).Any(DecidesFor);

        bool DecidesFor(int[] p)
        {
            var others = dialog.Rules.Where(r => r != rule && patients.Reading.Matches(r, p)).ToArray();
            var result = patients.Reading.Read(p);
            var isFirst = !others.Any(o => o.Level < rule.Level || (o.Level == rule.Level && o.Index < rule.Index));
            var alike = others.Any(o => o.Level == rule.Level && o.Where.SequenceEqual(rule.Where));
            return (rule.Level is not null && isFirst && !alike)
                || rule.Warn.Any(w => !others.Any(o => o.Warn.Contains(w)))
                || rule.Give.Any(i => result.Advice[i] && !others.Any(o => o.Give.Contains(i)) && !CalledByItself(dialog.Advice[i], p))
                || rule.Withhold.Any(i => !others.Any(o => o.Withhold.Contains(i)) && ShownWithout(dialog.Advice[i], p, others.Append(rule), result.Rank));
        }

        bool CalledByItself(AdviceItem item, int[] p) => !item.OnlyIf.IsEmpty && item.OnlyIf.All(c => patients.Reading.Holds(c, p));

        bool ShownWithout(AdviceItem item, int[] p, IEnumerable<Rule> matching, int rank)
        {
            var isNamed = dialog.Rules.Any(r => r.Give.Contains(item.Index));
            var isCalled = matching.Any(r => r.Give.Contains(item.Index)) || CalledByItself(item, p) || (item.OnlyIf.IsEmpty && !isNamed);
            return isCalled && !item.NeverIf.Any(c => patients.Reading.Holds(c, p)) && !(item.NotWhile >= rank);
        }
    }

    static void ForEach(int firstSeed, Action<Dialog, CountedPatients, ProofReport, ProofSpace> check)
    {
        for (var seed = firstSeed; seed < firstSeed + Editions; seed++)
        {
            var dialog = new RandomDialog(seed).Make();
            try
            {
                check(dialog, new CountedPatients(dialog), EditionProof.Of(dialog), ProofSpace.Of(dialog, EditionProof.NodeLimit));
            }
            catch (Xunit.Sdk.XunitException fault)
            {
                Assert.Fail($"Edition {seed}: {fault.Message}");
            }
        }
    }
}
