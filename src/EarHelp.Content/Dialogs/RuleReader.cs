using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tables;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the rows that decide how urgent it is, and those that decide whether this clinic may treat.</summary>
sealed class RuleReader(RuleNames names, ConditionReader conditions, SourceReader sources, ProblemList problems)
{
    static readonly string[] Sureness = ["high", "medium", "low"];
    readonly ImmutableArray<Rule>.Builder _rules = ImmutableArray.CreateBuilder<Rule>();
    readonly ImmutableArray<TreatRule>.Builder _treatRules = ImmutableArray.CreateBuilder<TreatRule>();
    readonly Dictionary<string, PageCell> _ids = new(StringComparer.Ordinal);
    readonly List<(PageCell Cell, string Rule)> _alsoSaidBy = [];
    readonly HashSet<string> _otherwise = new(StringComparer.Ordinal);

    public ImmutableArray<Rule> Rules => _rules.ToImmutable();

    public ImmutableArray<TreatRule> TreatRules => _treatRules.ToImmutable();

    /// <summary>True if the row has - in every condition; a cell that could not be read does not make it one.</summary>
    public bool IsOtherwise(string rule) => _otherwise.Contains(rule);

    public void Read(ImmutableArray<RuleTable> tables)
    {
        foreach (var table in tables)
        {
            ReportPolicy(table);
            foreach (var row in table.Table.Rows)
                Read(table, row);
        }

        ReportAlsoSaidBy();
    }

    void ReportPolicy(RuleTable table)
    {
        if (table.Policy is not { } policy)
            return;
        if (table.Known.ContainsKey(RuleTable.Level) && policy != HitPolicy.Priority)
            problems.Add(Codes.UnsuitedPolicy, table.Table.AboveSpot, $"A table with a column **level** has policy {policy.Letter}.", "All such tables form one decision: (policy P: the most urgent row decides).");
        else if (!table.MakesRules && table.MakesTreatRules && policy != HitPolicy.First)
            problems.Add(Codes.UnsuitedPolicy, table.Table.AboveSpot, $"A table with a column **clinic may treat** has policy {policy.Letter}.", "All such tables form one decision: (policy F: the first matching row decides).");
    }

    void Read(RuleTable table, PageRow row)
    {
        var id = row.Cells[0];
        if (id.Text.Length > 0 && !RuleTable.RuleId().IsMatch(id.Text))
            problems.Add(Codes.MalformedName, id.Spot, $"\"{id.Text}\" is not the name of a rule.", "Write letters, digits and hyphens, for example RF-030; rows of one rule are RF-030.1, RF-030.2.");
        if (id.Text.Length > 0 && !_ids.TryAdd(id.Text, id))
            problems.Add(Codes.DoubledName, id.Spot, $"The rule \"{id.Text}\" is given twice; first at {_ids[id.Text].Spot}.", $"Give it another name, or write {id.Text}.1 and {id.Text}.2 for two rows of one rule.");
        if (!table.MakesRules && !table.MakesTreatRules)
            return;
        var met = NamedFactReader.ReadConditions(table, row, conditions);
        if (table.Conditions.All(c => row.Cells[c] is { IsMissing: false, Text.Length: > 0, IsNothing: true }))
            _otherwise.Add(id.Text);
        var because = table.Cell(row, RuleTable.Because);
        if (!because.IsMissing && because.IsNothing)
            problems.Add(Codes.MissingReason, because.Spot, $"Rule \"{id.Text}\" gives no reason.", "Say in the column **because** why it concludes this.");
        var referred = sources.Refer(table.Cell(row, RuleTable.Source), $"Rule \"{id.Text}\"");
        var before = _rules.Count + _treatRules.Count;
        if (table.MakesRules)
            ReadRule(table, row, met, because.Text, referred);
        if (table.MakesTreatRules)
            ReadTreat(table, row, met, because.Text, referred);
        if (_rules.Count + _treatRules.Count == before)
            ReportNothing(table, row);
    }

    void ReportNothing(RuleTable table, PageRow row)
    {
        var at = table.Known.ContainsKey(RuleTable.Level) ? table.Cell(row, RuleTable.Level) : row.Cells[0];
        if (!row.Cells.Any(c => c.IsMissing) && at.Text.Length > 0)
            problems.Add(Codes.ConcludesNothing, at.Spot, $"Rule \"{row.Cells[0].Text}\" concludes no level and nothing else.", $"Put one of {string.Join(", ", names.LevelNames.Select(l => $"\"{l}\""))} into the column **level**, or take the row out.");
    }

    void ReadRule(RuleTable table, PageRow row, ImmutableArray<Condition> met, string because, ImmutableArray<string> referred)
    {
        var levelCell = table.Cell(row, RuleTable.Level);
        var level = names.Levels.Find(levelCell);
        var where = names.Destinations.FindAll(table.Cell(row, RuleTable.Where));
        var give = names.Advice.FindAll(table.Cell(row, RuleTable.Give));
        var withhold = names.Advice.FindAll(table.Cell(row, RuleTable.Withhold));
        var warn = ReadNames(table.Cell(row, RuleTable.Warn));
        if (level is null && levelCell.IsNothing && give.IsEmpty && withhold.IsEmpty && warn.IsEmpty)
            return;
        foreach (var item in give.Intersect(withhold))
            problems.Add(Codes.GivenAndWithheld, table.Cell(row, RuleTable.Give).Spot, $"Rule \"{row.Cells[0].Text}\" gives and withholds \"{names.AdviceNames[item]}\".", "Keep it in one of the two columns.");
        if (!levelCell.IsNothing || levelCell.IsMissing)
            ReportWhere(table, row, level, where, levelCell.IsNothing);
        else if (!table.Cell(row, RuleTable.Where).IsNothing)
            ReportWhere(table, row, null, where, true);
        _rules.Add(new Rule(_rules.Count, row.Cells[0].Text, table.Name, met, level, where, warn, give, withhold,
            ReadCountsFrom(table.Cell(row, RuleTable.CountsFrom)), because, referred, ReadSure(table.Cell(row, RuleTable.Sure)),
            ReadAlsoSaidBy(table.Cell(row, RuleTable.AlsoSaidBy), row.Cells[0].Text), row.Spot));
    }

    void ReportWhere(RuleTable table, PageRow row, int? level, ImmutableArray<int> where, bool hasNoLevel)
    {
        var cell = table.Cell(row, RuleTable.Where);
        var rule = $"Rule \"{row.Cells[0].Text}\"";
        if (hasNoLevel && !cell.IsNothing)
            problems.Add(Codes.WrongWhere, cell.Spot, $"{rule} sends people somewhere without a level.", "Write - in the column **where**, or give a level.");
        else if (level is not null && cell.IsNothing)
            problems.Add(Codes.WrongWhere, cell.Spot, $"{rule} has a level and sends nobody anywhere.", "Name destinations in the column **where**, the last one always open.");
        else if (level is not null && where.Length == cell.SplitAt(',').Length && !names.IsAlwaysOpen(where[^1]))
            problems.Add(Codes.WrongWhere, cell.Spot, $"{rule} ends in \"{names.DestinationNames[where[^1]]}\", which is not always open.", $"End with one of: {string.Join(", ", names.AlwaysOpen)}.");
    }

    void ReadTreat(RuleTable table, PageRow row, ImmutableArray<Condition> met, string because, ImmutableArray<string> referred)
    {
        const string NotUntil = "not until ";
        var cell = table.Cell(row, RuleTable.Treat);
        if (cell.IsNothing)
            return;
        var hold = cell.Text.StartsWith(NotUntil, StringComparison.Ordinal) ? cell.Text[NotUntil.Length..].Trim() : null;
        if (hold is null && cell.Text != "yes")
            problems.Add(Codes.WrongTreat, cell.Spot, $"\"{cell.Text}\" does not say whether this clinic may treat.", "Write yes, or \"not until …\" with what has to happen first.");
        _treatRules.Add(new TreatRule(_treatRules.Count, row.Cells[0].Text, met, hold, because, referred, row.Spot));
    }

    ImmutableArray<string> ReadNames(PageCell cell)
    {
        if (cell.IsNothing)
            return [];
        foreach (var (text, spot) in cell.SplitAt(',').Where(e => e.Text.Length == 0))
            problems.Add(Codes.MalformedName, spot, "A name is missing between two commas.", "Remove the comma or write the name.");
        return [.. cell.SplitAt(',').Select(e => e.Text).Where(t => t.Length > 0)];
    }

    int? ReadCountsFrom(PageCell cell)
    {
        if (cell.IsNothing)
            return null;
        if (names.Facts.FirstOrDefault(f => f.Id == cell.Text && f.Counted is not null) is { } date)
            return date.Index;
        problems.AddUnknown(Codes.WrongCountsFrom, cell.Spot, "date", cell.Text, names.Facts.Where(f => f.Counted is not null).Select(f => f.Id));
        return null;
    }

    string ReadSure(PageCell cell)
    {
        if (!cell.IsNothing && !Sureness.Contains(cell.Text))
            problems.Add(Codes.WrongChoice, cell.Spot, $"\"{cell.Text}\" does not say how sure the rule is.", $"Write one of: {string.Join(", ", Sureness)}.");
        return cell.IsNothing ? "" : cell.Text;
    }

    ImmutableArray<string> ReadAlsoSaidBy(PageCell cell, string rule)
    {
        if (!cell.IsNothing)
            _alsoSaidBy.Add((cell, rule));
        return ReadNames(cell);
    }

    void ReportAlsoSaidBy()
    {
        var owners = _ids.Keys.Select(i => i.Split('.')[0]).ToHashSet(StringComparer.Ordinal);
        foreach (var (cell, rule) in _alsoSaidBy)
        {
            foreach (var (text, spot) in cell.SplitAt(',').Where(e => (!_ids.ContainsKey(e.Text) && !owners.Contains(e.Text)) || e.Text == rule))
                problems.AddUnknown(Codes.UnknownName, spot, "other rule", text, _ids.Keys.Where(i => i != rule));
        }
    }
}
