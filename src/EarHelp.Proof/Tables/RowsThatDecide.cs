using EarHelp.Proof.Findings;
using EarHelp.Proof.Properties;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Tables;

/// <summary>
/// A row decides if it alone supplies some patient's level, destinations, advice or warning: no other row that the patient meets says
/// the same. A row that does not is marked "also said by". The last row for all others is met only by those who meet no other.
/// </summary>
static class RowsThatDecide
{
    public static IEnumerable<Finding> Of(ProofContext proof) => [.. Rules(proof), .. TreatRules(proof), .. NamedFactRows(proof)];

    static IEnumerable<Finding> Rules(ProofContext proof)
    {
        foreach (var rule in proof.Dialog.Rules.Where(r => r.AlsoSaidBy.IsEmpty && !r.IsOtherwise))
        {
            var met = proof.Space.And(proof.Space.Possible, proof.Space.Matches[rule.Index]);
            if (met == Terminal.False || SuppliesLevel(proof, rule) || SuppliesWarning(proof, rule) || SuppliesAdvice(proof, rule))
                continue;
            var (classes, asked) = proof.Smallest.PathIn(met);
            var others = proof.Dialog.Rules.Where(r => r != rule && r.Level <= (rule.Level ?? int.MaxValue) && proof.Space.EndOf(proof.Space.Matches[r.Index], classes) == Terminal.True).ToArray();
            yield return new NeverDecides(rule.Id, Said(others.Select(o => o.Id)), false, [rule.Spot, .. others.Select(o => o.Spot)], proof.Smallest.Told(classes, asked), proof.Count(met));
        }
    }

    static bool SuppliesLevel(ProofContext proof, Rule rule)
    {
        if (rule.Level is null)
            return false;
        var alike = proof.Dialog.Rules.Where(r => r != rule && r.Level == rule.Level && r.Where.SequenceEqual(rule.Where) && !r.IsOtherwise);
        return proof.Space.Without(proof.DecidedBy(rule), proof.Space.Any(alike.Select(r => proof.Space.Matches[r.Index]))) != Terminal.False;
    }

    static bool SuppliesWarning(ProofContext proof, Rule rule) =>
        rule.Warn.Any(warning => IsAlone(proof, rule, r => r.Warn.Contains(warning), proof.Space.Possible));

    static bool SuppliesAdvice(ProofContext proof, Rule rule)
    {
        foreach (var item in rule.Give.Select(i => proof.Dialog.Advice[i]))
        {
            var shown = proof.Space.Where(proof.Space.Roots.Advice[item.Index]);
            var calledAnyway = item.OnlyIf.IsEmpty ? Terminal.False : proof.Space.All(item.OnlyIf);
            if (IsAlone(proof, rule, r => r.Give.Contains(item.Index), proof.Space.Without(shown, calledAnyway)))
                return true;
        }

        foreach (var item in rule.Withhold.Select(i => proof.Dialog.Advice[i]))
        {
            var isForbiddenAnyway = proof.Space.Any(item.NeverIf.Select(proof.Space.Of));
            if (IsAlone(proof, rule, r => r.Withhold.Contains(item.Index), proof.Space.Without(proof.Space.And(proof.Space.Possible, Called(proof, item)), isForbiddenAnyway)))
                return true;
        }

        return false;
    }

    /// <summary>Whom the item would be given if nothing withheld it.</summary>
    static int Called(ProofContext proof, AdviceItem item)
    {
        var giving = proof.Dialog.Rules.Where(r => r.Give.Contains(item.Index)).Select(r => proof.Space.Matches[r.Index]).ToArray();
        var called = giving.Length > 0 && item.OnlyIf.IsEmpty ? Terminal.False : proof.Space.All(item.OnlyIf);
        var inTime = item.NotWhile is { } rank ? proof.Space.Where(proof.Space.Roots.Level, l => l > rank) : proof.Space.Possible;
        return proof.Space.And(proof.Space.Builder.Or(called, proof.Space.Any(giving)), inTime);
    }

    static bool IsAlone(ProofContext proof, Rule rule, Func<Rule, bool> saysTheSame, int among)
    {
        var others = proof.Space.Any(proof.Dialog.Rules.Where(r => r != rule && saysTheSame(r)).Select(r => proof.Space.Matches[r.Index]));
        return proof.Space.Without(proof.Space.And(among, proof.Space.Matches[rule.Index]), others) != Terminal.False;
    }

    /// <summary>The first matching row decides: a row decides if somebody meets no row above it, and no later one would say the same.</summary>
    static IEnumerable<Finding> TreatRules(ProofContext proof)
    {
        var rows = proof.Dialog.TreatRules;
        var above = Terminal.False;
        foreach (var row in rows)
        {
            var met = proof.Space.And(proof.Space.Possible, proof.Space.All(row.Conditions));
            var decided = proof.Space.Without(met, above);
            var alike = rows.Where(r => r.Index > row.Index && r.Hold == row.Hold).Select(r => proof.Space.All(r.Conditions));
            above = proof.Space.Builder.Or(above, met);
            if (met == Terminal.False)
            {
                yield return new NeverReached("row", row.Id, [row.Spot]);
            }
            else if (decided == Terminal.False || proof.Space.Without(decided, proof.Space.Any(alike)) == Terminal.False)
            {
                var (classes, asked) = proof.Smallest.PathIn(met);
                var others = rows.Where(r => r != row && proof.Space.EndOf(proof.Space.All(r.Conditions), classes) == Terminal.True).ToArray();
                yield return new NeverDecides(row.Id, Said(others.Select(o => o.Id)), false, [row.Spot, .. others.Select(o => o.Spot)], proof.Smallest.Told(classes, asked), proof.Count(met));
            }
        }
    }

    /// <summary>The first row that fits decides; a row that only repeats the value of others is a second reason for it.</summary>
    static IEnumerable<Finding> NamedFactRows(ProofContext proof) => proof.Dialog.NamedFacts.SelectMany(n => NamedFactRows(proof, n));

    static IEnumerable<Finding> NamedFactRows(ProofContext proof, NamedFact named)
    {
        var sets = named.Rows.Select(r => proof.Space.And(proof.Space.Possible, proof.Space.All(r.Conditions))).ToArray();
        var above = Terminal.False;
        for (var i = 0; i < sets.Length; i++)
        {
            var row = named.Rows[i];
            var alike = sets.Where((_, j) => j > i && named.Rows[j].Value == row.Value);
            var decided = proof.Space.Without(proof.Space.Without(sets[i], above), proof.Space.Any(alike));
            above = proof.Space.Builder.Or(above, sets[i]);
            if (sets[i] == Terminal.False)
                yield return new NeverReached("row", $"{named.Id}: {Written(proof, row)}", [row.Spot]);
            else if (decided == Terminal.False && named.Rows.Length > 1)
                yield return new NeverDecides($"{named.Id}: {Written(proof, row)}", $"another row of \"{named.Id}\"", true, [row.Spot], proof.Smallest.Of(sets[i]), proof.Count(sets[i]));
        }
    }

    static string Written(ProofContext proof, NamedFactRow row) =>
        string.Join("; ", row.Conditions.Select(c => $"{proof.NameOf(c)}: {c.Written}"));

    static string Said(IEnumerable<string> rules) => string.Join(", ", rules) is { Length: > 0 } ids ? ids : "another row";
}
