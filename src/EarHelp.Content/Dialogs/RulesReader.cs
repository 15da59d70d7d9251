using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads decision tables: how urgent, and whether the clinic may treat.</summary>
static partial class RulesReader
{
    const int MostConditions = 7;
    const double HoursOfThreeDays = 72;
    static readonly string[] Sures = ["high", "medium", "low"];

    public static void Read(DialogDraft draft)
    {
        var ids = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (_, table) in TableKind.Find(draft.Pages, "rule"))
        {
            CheckHeadings(draft, table);
            var columns = new RuleColumns(table);
            var treats = columns.Has(Conclusions.MayTreat);
            CheckPolicy(draft, table, treats);
            foreach (var row in table.Rows)
            {
                if (!ids.TryAdd(row.Cells[0].Text, 0))
                    draft.Problems.Add(Codes.NameTaken, row.Cells[0].Spot, $"The rule id \"{row.Cells[0].Text}\" is given twice.", "A rule id is permanent and belongs to one row; several rows of one rule are X.1, X.2.");
                if (treats)
                    AddTreatRule(draft, row, columns);
                else
                    AddRule(draft, table, row, columns);
            }
        }

        if (!draft.Rules.Any(r => r.IsOtherwise))
            draft.Problems.Add(Codes.NoOtherwise, draft.Rules.Count > 0 ? draft.Rules[^1].Spot : new("dialogs", 1, 1), "No row says what to do when no other row fits.", "Add an otherwise-row: - in every condition, and a clinician within three days.");
        if (draft.TreatRules.Count > 0 && !draft.TreatRules[^1].Conditions.IsEmpty)
            draft.Problems.Add(Codes.NoOtherwise, draft.TreatRules[^1].Spot, "The last row on whether the clinic may treat does not fit everybody.", "Add a last row with - in every condition.");
    }

    static void AddRule(DialogDraft draft, PagePart.Table table, Row row, RuleColumns columns)
    {
        var level = LevelOf(draft, columns.Find(row, Conclusions.Level));
        var where = WhereOf(draft, columns.Find(row, Conclusions.Where), row, level is not null);
        var because = columns.Find(row, Conclusions.Because);
        if (because is null)
            draft.Problems.Add(Codes.NoReason, row.Spot, $"The rule {row.Cells[0].Text} gives no reason.", "Say why in the column **because**.");
        var sure = columns.Find(row, Conclusions.Sure);
        if (sure is not null && !Sures.Contains(sure.Text, StringComparer.Ordinal))
            draft.Problems.Add(Codes.BadConclusion, sure.Spot, $"\"{sure.Text}\" does not say how sure the rule is.", "Write high, medium or low.");
        var rule = new Rule(
            draft.Rules.Count,
            row.Cells[0].Text,
            table.Title,
            columns.Conditions(draft, row),
            level,
            where,
            [.. Names.List(columns.Find(row, Conclusions.Warn)).Select(w => w.Name)],
            Items(draft, columns.Find(row, Conclusions.Give)),
            Items(draft, columns.Find(row, Conclusions.Withhold)),
            CountsFrom(draft, columns.Find(row, Conclusions.CountsFrom)),
            because?.Text ?? string.Empty,
            SourceCells.Read(draft, columns.Find(row, Conclusions.Source), row.Spot, $"The rule {row.Cells[0].Text}"),
            sure?.Text ?? string.Empty,
            [.. Names.List(columns.Find(row, Conclusions.AlsoSaidBy)).Select(w => w.Name)],
            row.Spot);
        draft.Rules.Add(rule);
        CheckOtherwise(draft, rule, columns, row);
    }

    static void AddTreatRule(DialogDraft draft, Row row, RuleColumns columns)
    {
        const string NotUntil = "not until ";
        var cell = columns.Of(row, Conclusions.MayTreat);
        if (cell.Text != "yes" && !cell.Text.StartsWith(NotUntil, StringComparison.Ordinal))
            draft.Problems.Add(Codes.BadConclusion, cell.Spot, $"\"{cell.Text}\" does not say whether the clinic may treat.", "Write yes, or \"not until …\".");
        draft.TreatRules.Add(new TreatRule(
            draft.TreatRules.Count,
            row.Cells[0].Text,
            columns.Conditions(draft, row),
            cell.Text.StartsWith(NotUntil, StringComparison.Ordinal) ? cell.Text[NotUntil.Length..] : null,
            columns.Find(row, Conclusions.Because)?.Text ?? string.Empty,
            SourceCells.Read(draft, columns.Find(row, Conclusions.Source), row.Spot, $"The rule {row.Cells[0].Text}"),
            row.Spot));
    }

    static void CheckOtherwise(DialogDraft draft, Rule rule, RuleColumns columns, Row row)
    {
        if (rule.Level is not { } rank || !columns.SaysAnything(row))
            return;
        var level = draft.Levels.Values.First(l => l.Rank == rank);
        if (PlacesReader.HoursOf(level) > HoursOfThreeDays)
            draft.Problems.Add(Codes.OtherwiseTooLate, rule.Spot, $"The otherwise-row {rule.Id} concludes \"{level.Id}\".", "What nobody foresaw is never the least urgent: conclude at least a clinician within three days.");
    }

    static int? LevelOf(DialogDraft draft, Cell? cell)
    {
        if (cell is null)
            return null;
        if (draft.Levels.TryGetValue(cell.Text, out var level))
            return level.Rank;
        draft.Problems.Add(
            Codes.BadConclusion,
            cell.Spot,
            $"\"{cell.Text}\" is not a level.",
            (NearestName.To(cell.Text, draft.Levels.Keys) is { } near ? $"Did you mean \"{near}\"? " : string.Empty) + $"The levels are: {string.Join(", ", draft.Levels.Keys)}.");
        return null;
    }

    static ImmutableArray<int> WhereOf(DialogDraft draft, Cell? cell, Row row, bool hasLevel)
    {
        var where = ImmutableArray.CreateBuilder<int>();
        foreach (var (name, spot) in Names.List(cell))
        {
            if (draft.Destinations.TryGetValue(name, out var destination))
                where.Add(destination.Index);
            else
                Names.ReportUnknown(name, spot, "destination", draft.Destinations.Keys, draft.Problems);
        }

        if (hasLevel && cell is null)
            draft.Problems.Add(Codes.BadWhere, row.Spot, $"The rule {row.Cells[0].Text} has a level and no place to go.", "Name the destinations in order in the column **where**.");
        else if (where.Count > 0 && draft.Destinations.Values.First(d => d.Index == where[^1]).Hours != DestinationHours.Always)
            draft.Problems.Add(Codes.NotAlwaysOpen, cell!.Spot, $"The last destination of {row.Cells[0].Text} is not always open.", "End the list with one whose hours are \"always\".");
        return where.ToImmutable();
    }

    static ImmutableArray<int> Items(DialogDraft draft, Cell? cell)
    {
        var items = ImmutableArray.CreateBuilder<int>();
        foreach (var (name, spot) in Names.List(cell))
        {
            if (draft.Advice.TryGetValue(name, out var item))
                items.Add(item.Index);
            else
                Names.ReportUnknown(name, spot, "advice item", draft.Advice.Keys, draft.Problems);
        }

        return items.ToImmutable();
    }

    static int? CountsFrom(DialogDraft draft, Cell? cell)
    {
        if (cell is null)
            return null;
        if (draft.Facts.FirstOrDefault(f => f.Id == cell.Text && f.Counted is not null) is { } date)
            return date.Index;
        Names.ReportUnknown(cell.Text, cell.Spot, "date", draft.Facts.Where(f => f.Counted is not null).Select(f => f.Id), draft.Problems);
        return null;
    }

    static void CheckHeadings(DialogDraft draft, PagePart.Table table)
    {
        foreach (var heading in table.Headings.Skip(1).Where(h => h.IsBold && !Conclusions.All.Contains(h.Plain, StringComparer.Ordinal)))
        {
            var near = NearestName.To(heading.Plain, Conclusions.All);
            draft.Problems.Add(
                Codes.UnknownColumn,
                heading.Spot,
                $"There is no conclusion \"{heading.Plain}\".",
                (near is null ? string.Empty : $"Did you mean \"{near}\"? ") + $"The conclusions are: {string.Join(", ", Conclusions.All)}.");
        }

        if (table.Headings.Skip(1).Count(h => !h.IsBold) > MostConditions)
            draft.Problems.Add(Codes.TooManyConditions, table.Spot, $"The table has more than {MostConditions} condition columns.", "Put signs that belong together into a table \"any of: …\" and use its name.");
        foreach (var cell in table.Rows.SelectMany(r => r.Cells).Where(c => c.Text.Length == 0))
            draft.Problems.Add(Codes.EmptyCell, cell.Spot, "The cell is empty.", "Write - if anything may stand here, or if there is nothing to say.");
    }

    static void CheckPolicy(DialogDraft draft, PagePart.Table table, bool treats)
    {
        var match = Policy().Match(table.Title);
        if (!match.Success)
        {
            draft.Problems.Add(Codes.BadPolicy, table.TitleSpot, "The heading above the table does not state its hit policy.", "Write for example \"## How urgent (policy P: the most urgent row decides)\".");
            return;
        }

        var letter = match.Groups["letter"].Value;
        if (letter != "P" && !(treats && letter == "F"))
        {
            draft.Problems.Add(
                Codes.BadPolicy,
                table.TitleSpot,
                $"This table decides by policy {(treats ? "F: the first row that fits" : "P: the most urgent row")}, its heading says {letter}.",
                treats ? "Write (policy F: the first row that fits decides)." : "Write (policy P: the most urgent row decides).");
        }
    }

    [GeneratedRegex(@"\(policy (?<letter>[A-Z][+<>#]?): [^)]+\)", RegexOptions.CultureInvariant | RegexOptions.NonBacktracking)]
    private static partial Regex Policy();
}
