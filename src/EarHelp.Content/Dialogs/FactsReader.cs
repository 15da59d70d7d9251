using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads facts and the numbers counted from dates.</summary>
static class FactsReader
{
    static readonly string[] Needed = ["about", "values", "ask in", "worse towards", "clear", "red flag"];
    static readonly string[] Optional = ["applies when"];
    static readonly string[] NumberColumns = ["counts", "since", "values"];

    public static void Read(DialogDraft draft)
    {
        var numbers = ReadNumbers(draft);
        var rows = Rows(draft);
        foreach (var (row, columns) in rows.OrderBy(r => AskInOf(draft, r.Columns.Of(r.Row, "ask in"))))
            Add(draft, row, columns, numbers);
        foreach (var (name, number) in numbers.Where(n => !draft.Facts.Any(f => f.Counted is not null && f.Id == n.Key)))
            draft.Problems.Add(Codes.BadNumber, number.Spot, $"The number counts since \"{name}\", which is no date.", "Name a fact whose values are \"date\".");
        ReadApplies(draft, rows);
    }

    static List<(Row Row, Columns Columns)> Rows(DialogDraft draft)
    {
        var rows = new List<(Row, Columns)>();
        foreach (var (_, table) in TableKind.Find(draft.Pages, "fact"))
        {
            if (Columns.Read(table, Needed, Optional, draft.Problems) is { } columns)
                rows.AddRange(table.Rows.Select(r => (r, columns)));
        }

        return rows;
    }

    static void Add(DialogDraft draft, Row row, Columns columns, Dictionary<string, Number> numbers)
    {
        var name = row.Cells[0];
        if (!Names.IsFree(name, draft.FactByDecidingName, "a fact", draft.Problems) || draft.Facts.Any(f => f.Id == name.Text))
            return;
        if (ValuesOf(draft, columns.Of(row, "values"), name.Text, numbers) is not { } read)
            return;
        var values = read.Values;
        var fact = new Fact(
            draft.Facts.Count,
            name.Text,
            AboutOf(draft, columns.Of(row, "about")),
            values,
            read.Counted,
            AskInOf(draft, columns.Of(row, "ask in")),
            WorseOf(draft, columns.Of(row, "worse towards"), values),
            ClearOf(draft, columns.Of(row, "clear"), values),
            RedFlagOf(draft, columns.Of(row, "red flag")),
            [],
            row.Spot);
        draft.Facts.Add(fact);
        draft.FactByDecidingName[fact.DecidingId] = fact.Index;
    }

    static void ReadApplies(DialogDraft draft, List<(Row Row, Columns Columns)> rows)
    {
        foreach (var (row, columns) in rows.Where(r => r.Columns.Has("applies when")))
        {
            var index = draft.Facts.FindIndex(f => f.Id == row.Cells[0].Text);
            if (index < 0)
                continue;
            var conditions = ConditionReader.ReadList(draft, columns.Find(row, "applies when"));
            foreach (var late in conditions.Where(c => c.Of.Index >= index))
            {
                draft.Problems.Add(
                    Codes.LateCondition,
                    late.Spot,
                    $"\"{row.Cells[0].Text}\" applies by a fact that is asked after it.",
                    "Put the fact that decides above this one, with the same or an earlier \"ask in\".");
            }

            draft.Facts[index] = draft.Facts[index] with { AppliesWhen = [.. conditions.Where(c => c.Of.Index < index)] };
        }
    }

    static (FactValues Values, CountedFromDate? Counted)? ValuesOf(DialogDraft draft, Cell cell, string name, Dictionary<string, Number> numbers)
    {
        if (cell.Text == "date")
        {
            if (numbers.TryGetValue(name, out var number))
                return (number.Values, new CountedFromDate(number.Name, number.Unit));
            draft.Problems.Add(Codes.BadNumber, cell.Spot, $"No number is counted from the date \"{name}\".", "Add a row to a table \"number, counts, since, values\".");
            return null;
        }

        if (ValuesReader.Read(cell.Text) is { } values)
            return (values, null);
        draft.Problems.Add(
            Codes.BadValues,
            cell.Spot,
            $"\"{cell.Text}\" are no values.",
            "Write names with commas between, or \"0 to 120 years, whole\", or \"34.0 to 43.0 °C, steps of 0.1\", or \"date\".");
        return null;
    }

    static Dictionary<string, Number> ReadNumbers(DialogDraft draft)
    {
        var numbers = new Dictionary<string, Number>(StringComparer.Ordinal);
        foreach (var (_, table) in TableKind.Find(draft.Pages, "number"))
        {
            if (Columns.Read(table, NumberColumns, [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows.Where(r => Names.IsFree(r.Cells[0], numbers.Values.ToDictionary(n => n.Name), "a number", draft.Problems)))
            {
                var counts = columns.Of(row, "counts");
                if (counts.Text is not ("days" or "hours"))
                    draft.Problems.Add(Codes.BadNumber, counts.Spot, $"\"{counts.Text}\" cannot be counted.", "Write days or hours.");
                if (ValuesReader.Read(columns.Of(row, "values").Text) is not FactValues.Numbers values)
                {
                    draft.Problems.Add(Codes.BadValues, columns.Of(row, "values").Spot, "A counted number needs a range of numbers.", "Write for example 0 to 36500 days, whole.");
                    continue;
                }

                var number = new Number(row.Cells[0].Text, counts.Text == "hours" ? CountUnit.Hours : CountUnit.Days, values, row.Spot);
                if (!numbers.TryAdd(columns.Of(row, "since").Text, number))
                    draft.Problems.Add(Codes.BadNumber, row.Spot, "Two numbers are counted from one date.", "Keep one of them.");
            }
        }

        return numbers;
    }

    static About AboutOf(DialogDraft draft, Cell cell)
    {
        if (cell.Text is not ("person" or "ear"))
            draft.Problems.Add(Codes.BadAbout, cell.Spot, $"\"{cell.Text}\" is not what a fact can be about.", "Write person or ear.");
        return cell.Text == "ear" ? About.Ear : About.Person;
    }

    static AskIn AskInOf(DialogDraft draft, Cell cell)
    {
        switch (cell.Text)
        {
            case "form": return AskIn.Form;
            case "safety": return AskIn.Safety;
            case "story": return AskIn.Story;
            case "before advice": return AskIn.BeforeAdvice;
            default:
                draft.Problems.Add(Codes.BadAskIn, cell.Spot, $"\"{cell.Text}\" is no time of asking.", "Write form, safety, story or before advice.");
                return AskIn.BeforeAdvice;
        }
    }

    static Worse WorseOf(DialogDraft draft, Cell cell, FactValues values)
    {
        const string None = "none, because ";
        if (cell.Text.StartsWith(None, StringComparison.Ordinal) && cell.Text.Length > None.Length)
            return new Worse.NoDirection(cell.Text[None.Length..]);
        if (values.IndexOf(cell.Text) is { } index && (index == 0 || index == values.Count - 1))
            return new Worse.Towards(index != 0);
        draft.Problems.Add(Codes.BadWorse, cell.Spot, $"\"{cell.Text}\" is not an end of the values.", "Write the first or the last value, or \"none, because …\".");
        return new Worse.NoDirection(cell.Text);
    }

    static int? ClearOf(DialogDraft draft, Cell cell, FactValues values)
    {
        if (cell.IsAnything)
            return null;
        if (values.IndexOf(cell.Text) is { } index)
            return index;
        draft.Problems.Add(Codes.BadClear, cell.Spot, $"\"{cell.Text}\" is not one of the values.", "Write the value that means nothing is wrong, or -.");
        return null;
    }

    static RedFlag RedFlagOf(DialogDraft draft, Cell cell)
    {
        const string No = "no, because ";
        if (cell.Text == "yes")
            return new RedFlag.Marked();
        if (cell.IsAnything)
            return new RedFlag.Unmarked();
        if (cell.Text.StartsWith(No, StringComparison.Ordinal) && cell.Text.Length > No.Length)
            return new RedFlag.Exempt(cell.Text[No.Length..]);
        draft.Problems.Add(Codes.BadRedFlag, cell.Spot, $"\"{cell.Text}\" does not say whether this is a red flag.", "Write yes, -, or \"no, because …\".");
        return new RedFlag.Unmarked();
    }

    sealed record Number(string Name, CountUnit Unit, FactValues.Numbers Values, SourceSpot Spot);
}
