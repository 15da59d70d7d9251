using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads advice items, explanations and impossible pairs.</summary>
static class AdviceReader
{
    static readonly string[] AdviceColumns = ["kind", "about", "only if", "never if", "not while", "source"];
    static readonly string[] ExplanationColumns = ["only if", "source"];
    static readonly string[] ImpossibleColumns = ["with", "because"];

    public static void ReadAdvice(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "advice"))
        {
            if (Columns.Read(table, AdviceColumns, [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows.Where(r => Names.IsFree(r.Cells[0], draft.Advice, "an advice item", draft.Problems)))
            {
                var about = columns.Of(row, "about");
                if (about.Text is not ("person" or "ear"))
                    draft.Problems.Add(Codes.BadAbout, about.Spot, $"\"{about.Text}\" is not what an item can be about.", "Write person or ear.");
                draft.Advice.Add(row.Cells[0].Text, new AdviceItem(
                    draft.Advice.Count,
                    row.Cells[0].Text,
                    KindOf(draft, columns.Of(row, "kind")),
                    about.Text == "ear" ? About.Ear : About.Person,
                    ConditionReader.ReadList(draft, columns.Of(row, "only if")),
                    ConditionReader.ReadList(draft, columns.Of(row, "never if")),
                    NotWhile(draft, columns.Of(row, "not while")),
                    SourceCells.Read(draft, columns.Find(row, "source"), row.Spot, $"The item \"{row.Cells[0].Text}\""),
                    row.Spot));
            }
        }
    }

    public static void ReadExplanations(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "explanation"))
        {
            if (Columns.Read(table, ExplanationColumns, [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows.Where(r => Names.IsFree(r.Cells[0], draft.Explanations, "an explanation", draft.Problems)))
            {
                draft.Explanations.Add(row.Cells[0].Text, new Explanation(
                    draft.Explanations.Count,
                    row.Cells[0].Text,
                    ConditionReader.ReadList(draft, columns.Of(row, "only if")),
                    SourceCells.Read(draft, columns.Find(row, "source"), row.Spot, $"The explanation \"{row.Cells[0].Text}\""),
                    row.Spot));
            }
        }
    }

    public static void ReadImpossible(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "impossible"))
        {
            if (Columns.Read(table, ImpossibleColumns, [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows)
            {
                var one = ConditionReader.ReadList(draft, row.Cells[0]);
                var other = ConditionReader.ReadList(draft, columns.Of(row, "with"));
                if (columns.Find(row, "because") is null)
                    draft.Problems.Add(Codes.NoReason, row.Spot, "The row does not say why the answers cannot stand together.", "Say why in the column because.");
                if (one.Length == 1 && other.Length == 1)
                    draft.Impossible.Add(new ImpossiblePair(one[0], other[0], columns.Of(row, "because").Text, row.Spot));
                else if (one.Length != 0 && other.Length != 0)
                    draft.Problems.Add(Codes.BadCondition, row.Spot, "An impossible pair has one condition on each side.", "Split it into several rows.");
            }
        }
    }

    static AdviceKind KindOf(DialogDraft draft, Cell cell)
    {
        switch (cell.Text)
        {
            case "to do": return AdviceKind.ToDo;
            case "leave alone": return AdviceKind.LeaveAlone;
            case "get help": return AdviceKind.GetHelp;
            case "protect": return AdviceKind.Protect;
            default:
                draft.Problems.Add(Codes.BadKind, cell.Spot, $"\"{cell.Text}\" is no kind of advice.", "Write to do, leave alone, get help or protect.");
                return AdviceKind.ToDo;
        }
    }

    static int? NotWhile(DialogDraft draft, Cell cell)
    {
        if (cell.IsAnything || cell.Text.Length == 0)
            return null;
        if (draft.Levels.TryGetValue(cell.Text, out var level))
            return level.Rank;
        Names.ReportUnknown(cell.Text, cell.Spot, "level", draft.Levels.Keys, draft.Problems);
        return null;
    }
}
