using System.Collections.Immutable;
using EarHelp.Proof.Findings;
using EarHelp.Proof.Properties;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tables;

namespace EarHelp.Proof.Tables;

/// <summary>What is checked of each table by itself: gaps, overlaps, columns, values, rows that could be one.</summary>
static class TableChecks
{
    public static IEnumerable<Finding> Of(ProofContext proof) =>
        [.. Gaps(proof), .. Overlaps(proof), .. RowsThatDecide.Of(proof), .. Columns(proof), .. Outside(proof), .. Mergeable(proof)];

    static IEnumerable<Finding> Gaps(ProofContext proof)
    {
        foreach (var named in proof.Dialog.NamedFacts.Where(n => n.Otherwise is null))
        {
            var unfit = proof.Space.Without(proof.Space.Possible, proof.Space.Any(named.Rows.Select(r => proof.Space.All(r.Conditions))));
            if (unfit != Terminal.False)
                yield return new NoRowFits(named.Id, [named.Spot], proof.Smallest.Of(unfit), proof.Count(unfit));
        }
    }

    static IEnumerable<Finding> Overlaps(ProofContext proof)
    {
        foreach (var named in proof.Dialog.NamedFacts.Where(n => n.Policy == HitPolicy.Unique || n.Policy == HitPolicy.Any))
        {
            foreach (var (one, other) in Pairs(named.Rows).Where(p => named.Policy == HitPolicy.Unique || p.One.Value != p.Other.Value))
            {
                var both = proof.Space.And(proof.Space.Possible, proof.Space.All(one.Conditions), proof.Space.All(other.Conditions));
                if (both != Terminal.False)
                    yield return new RowsOverlap(named.Id, named.Policy.Means, [one.Spot, other.Spot], proof.Smallest.Of(both), proof.Count(both));
            }
        }
    }

    static IEnumerable<Finding> Columns(ProofContext proof)
    {
        var tables = proof.Dialog.Rules.GroupBy(r => r.Table, r => r.Conditions, StringComparer.Ordinal).Select(t => (t.Key, Rows: t.ToArray()))
            .Append((Key: "may this clinic treat", Rows: [.. proof.Dialog.TreatRules.Select(t => t.Conditions)]));
        foreach (var (table, rows) in tables)
        {
            foreach (var column in rows.SelectMany(r => r).Select(c => c.Of).Distinct())
            {
                var cells = rows.SelectMany(r => r.Where(c => c.Of == column).Select(c => (Row: r, Cell: c))).ToArray();
                if (!cells.All(c => IsIdle(proof, c.Row, c.Cell)))
                    continue;
                var repeats = !cells.All(c => proof.Space.Without(proof.Space.Possible, proof.Space.Of(c.Cell)) == Terminal.False);
                yield return new ColumnNeverMatters(table, proof.NameOf(cells[0].Cell), repeats, [.. cells.Select(c => c.Cell.Spot)]);
            }
        }
    }

    static bool IsIdle(ProofContext proof, ImmutableArray<Condition> row, Condition cell) =>
        proof.Space.And(proof.Space.Possible, proof.Space.All(row)) == proof.Space.And(proof.Space.Possible, proof.Space.All(row.Remove(cell)));

    static IEnumerable<Finding> Outside(ProofContext proof) =>
        from condition in DialogDiagrams.AllConditions(proof.Dialog)
        where condition.Values.IsEmpty
        select new ValueOutside(proof.NameOf(condition), condition.Written, [condition.Spot]);

    static IEnumerable<Finding> Mergeable(ProofContext proof)
    {
        foreach (var (one, other) in Pairs(proof.Dialog.Rules).Where(p => p.One.Table == p.Other.Table && SayTheSame(p.One, p.Other)))
        {
            if (OnlyDifference(one.Conditions, other.Conditions) is { } column)
                yield return new CouldBeMerged(one.Id, other.Id, proof.NameOf(column), [one.Spot, other.Spot]);
        }

        foreach (var (one, other) in Pairs(proof.Dialog.TreatRules).Where(p => p.One.Hold == p.Other.Hold && p.One.Because == p.Other.Because))
        {
            if (OnlyDifference(one.Conditions, other.Conditions) is { } column)
                yield return new CouldBeMerged(one.Id, other.Id, proof.NameOf(column), [one.Spot, other.Spot]);
        }

        foreach (var named in proof.Dialog.NamedFacts)
        {
            foreach (var (one, other) in Pairs(named.Rows).Where(p => p.One.Value == p.Other.Value && p.One.Sources.SequenceEqual(p.Other.Sources)))
            {
                if (OnlyDifference(one.Conditions, other.Conditions) is { } column)
                    yield return new CouldBeMerged(named.Id, named.Id, proof.NameOf(column), [one.Spot, other.Spot]);
            }
        }
    }

    static bool SayTheSame(Rule one, Rule other) =>
        one.Level == other.Level
        && one.Where.SequenceEqual(other.Where)
        && one.Warn.SequenceEqual(other.Warn)
        && one.Give.SequenceEqual(other.Give)
        && one.Withhold.SequenceEqual(other.Withhold)
        && one.CountsFrom == other.CountsFrom
        && one.Because == other.Because
        && one.Sources.SequenceEqual(other.Sources)
        && one.Sure == other.Sure;

    /// <summary>The one condition in which two rows over the same columns differ, or null.</summary>
    static Condition? OnlyDifference(ImmutableArray<Condition> one, ImmutableArray<Condition> other)
    {
        if (one.Length != other.Length || !one.All(c => one.Count(o => o.Of == c.Of) == 1 && other.Count(o => o.Of == c.Of) == 1))
            return null;
        var different = one.Where(c => !other.Single(o => o.Of == c.Of).Values.Equals(c.Values)).Take(2).ToArray();
        return different.Length == 1 ? different[0] : null;
    }

    static IEnumerable<(T One, T Other)> Pairs<T>(ImmutableArray<T> rows) =>
        rows.SelectMany((one, i) => rows.Skip(i + 1).Select(other => (one, other)));
}
