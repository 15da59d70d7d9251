using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tables;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the facts that follow from others, each after those it uses.</summary>
sealed class NamedFactReader(FactScope scope, ConditionReader conditions, SourceReader sources, ProblemList problems)
{
    public ImmutableArray<NamedFact> Read(ImmutableArray<NamedFactDraft> drafts)
    {
        for (var i = 0; i < drafts.Length; i++)
            scope.Add(drafts[i].Id, i, drafts[i].Values);
        var read = drafts.Select(ReadOne).ToImmutableArray();
        var order = Sort(read);
        var places = new int[read.Length];
        for (var i = 0; i < order.Length; i++)
        {
            places[order[i]] = i;
            scope.Renumber(read[order[i]].Id, i);
        }

        return [.. order.Select((old, i) => Moved(read[old], i, places))];
    }

    NamedFact ReadOne(NamedFactDraft draft, int index)
    {
        var rows = draft.Rules is null ? ReadList(draft) : ReadTable(draft, draft.Rules);
        int? otherwise = draft.Values.IsYesNo ? draft.Values.IndexOf("no") : null;
        if (otherwise is null && !rows.Any(r => r.Conditions.IsEmpty))
            problems.Add(Codes.NoOtherwise, draft.Spot, $"\"{draft.Id}\" has no value if no row matches.", "Add a last row with - in every condition.");
        return new NamedFact(index, draft.Id, draft.Values, rows, otherwise, draft.Spot) { Policy = draft.Rules?.Policy ?? HitPolicy.First };
    }

    ImmutableArray<NamedFactRow> ReadList(NamedFactDraft draft)
    {
        var columns = Columns.Of(draft.Table, [draft.Table.Kind, "when", "source"], [], problems);
        var rows = ImmutableArray.CreateBuilder<NamedFactRow>();
        foreach (var row in draft.Table.Rows)
        {
            var fact = row.Cells[0];
            var when = columns.Cell(row, "when");
            if (when.IsNothing)
            {
                if (!when.IsMissing && when.Text.Length > 0)
                    problems.Add(Codes.WrongCondition, when.Spot, "A named fact follows from anything here.", "Name the value that counts, for example yes.");
                continue;
            }

            var met = fact.IsNothing ? conditions.ReadList(when)
                : conditions.Read(fact.Text, fact.Spot, when.Text, when.Spot) is { } one ? [one] : [];
            var first = draft.Table.Rows.TakeWhile(r => r != row).FirstOrDefault(r => r.Cells[0].Text == fact.Text && columns.Cell(r, "when").Text == when.Text);
            if (first is not null)
                problems.Add(Codes.DoubledName, row.Spot, $"This row stands twice; first at {first.Spot}.", "Keep one of them.");
            if (!met.IsEmpty)
                rows.Add(new NamedFactRow(met, 0, sources.Refer(columns.Cell(row, "source"), $"The row \"{fact.Text}\""), row.Spot));
        }

        return draft.IsAllOf && rows.Count > 0
            ? [new NamedFactRow([.. rows.SelectMany(r => r.Conditions)], 0, [.. rows.SelectMany(r => r.Sources).Distinct(StringComparer.Ordinal)], draft.Spot)]
            : rows.ToImmutable();
    }

    ImmutableArray<NamedFactRow> ReadTable(NamedFactDraft draft, RuleTable rules)
    {
        if (rules.Policy is { } policy && policy != HitPolicy.First && policy != HitPolicy.Priority && policy != HitPolicy.Unique && policy != HitPolicy.Any)
            problems.Add(Codes.UnsuitedPolicy, rules.Table.AboveSpot, $"A table that makes the fact \"{draft.Id}\" has policy {policy.Letter}, and a fact has one value.", "Use F (first), P (priority), U (unique) or A (any).");
        var rows = ImmutableArray.CreateBuilder<NamedFactRow>();
        foreach (var row in rules.Table.Rows)
        {
            var value = draft.Values.IndexOf(row.Cells[draft.Column].Text);
            var met = ReadConditions(rules, row, conditions);
            var referred = sources.Refer(rules.Cell(row, RuleTable.Source), $"Rule \"{row.Cells[0].Text}\"");
            if (value is not null)
                rows.Add(new NamedFactRow(met, value.Value, referred, row.Spot));
        }

        // By priority the first value wins: its rows come first.
        return rules.Policy == HitPolicy.Priority ? [.. rows.OrderBy(r => r.Value)] : rows.ToImmutable();
    }

    public static ImmutableArray<Condition> ReadConditions(RuleTable rules, PageRow row, ConditionReader conditions)
    {
        var met = ImmutableArray.CreateBuilder<Condition>();
        foreach (var place in rules.Conditions)
        {
            var heading = rules.Table.Headings[place];
            var cell = row.Cells[place];
            if (cell is { IsMissing: false, Text.Length: > 0 } && conditions.Read(heading.Text, heading.Spot, cell.Text, cell.Spot) is { } condition)
                met.Add(condition);
        }

        return met.ToImmutable();
    }

    /// <summary>Places in an order in which each fact stands after those it uses; a circle is reported and cut.</summary>
    ImmutableArray<int> Sort(ImmutableArray<NamedFact> facts)
    {
        var order = ImmutableArray.CreateBuilder<int>();
        var state = new int[facts.Length];
        for (var i = 0; i < facts.Length; i++)
            Visit(i);
        return order.ToImmutable();

        void Visit(int fact)
        {
            if (state[fact] != 0)
                return;
            state[fact] = 1;
            foreach (var used in facts[fact].Rows.SelectMany(r => r.Conditions).Where(c => c.Of.IsNamedFact).Select(c => c.Of.Index).Distinct())
            {
                if (state[used] == 1)
                    problems.Add(Codes.Cycle, facts[fact].Spot, $"\"{facts[fact].Id}\" follows from \"{facts[used].Id}\", which follows from \"{facts[fact].Id}\" itself, perhaps by others between.", "Break the circle: let one of them speak of asked facts only.");
                Visit(used);
            }

            state[fact] = 2;
            order.Add(fact);
        }
    }

    static NamedFact Moved(NamedFact fact, int index, int[] places) => fact with
    {
        Index = index,
        Rows = [.. fact.Rows.Select(r => r with { Conditions = [.. r.Conditions.Select(c => c.Of.IsNamedFact ? c with { Of = new FactReference(true, places[c.Of.Index]) } : c)] })],
    };
}
