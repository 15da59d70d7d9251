using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the facts in asking order. What they apply to is read later, when all names are known.</summary>
sealed class FactReader(ProblemList problems)
{
    static readonly string[] AskIns = ["form", "safety", "story", "before advice"];
    readonly NameList _names = new("fact", problems);
    readonly HashSet<string> _damaged = new(StringComparer.Ordinal);
    readonly Dictionary<string, PageCell> _appliesWhen = new(StringComparer.Ordinal);

    /// <summary>The cells of the column <c>applies when</c>, by fact.</summary>
    public IReadOnlyDictionary<string, PageCell> AppliesWhen => _appliesWhen;

    public NameList Names => _names;

    /// <summary>Facts whose values could not be read.</summary>
    public IReadOnlySet<string> Damaged => _damaged;

    public ImmutableArray<Fact> Read(ImmutableArray<PageTable> tables, ImmutableArray<CountedNumber> numbers)
    {
        var facts = new List<Fact>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Fact, "about", "values", "ask in", "worse towards", "clear", "red flag"], ["applies when"], problems);
            foreach (var row in table.Rows)
            {
                if (_names.Add(row.Cells[0]) && ReadRow(row, columns, numbers) is { } fact)
                {
                    facts.Add(fact);
                    _appliesWhen[fact.Id] = columns.Cell(row, "applies when");
                }
            }
        }

        return [.. facts.OrderBy(f => f.AskIn).Select((f, i) => f with { Index = i })];
    }

    Fact ReadRow(PageRow row, Columns columns, ImmutableArray<CountedNumber> numbers)
    {
        var id = row.Cells[0].Text;
        var cell = columns.Cell(row, "values");
        var number = numbers.FirstOrDefault(n => n.Since.Text == id);
        if (cell.Text == "date" && number is null)
            problems.Add(Codes.WrongNumber, cell.Spot, $"Nothing is counted from the date \"{id}\", so it cannot decide anything.", "Add a row to a table \"number | counts | since | values\".");
        else if (cell.Text != "date" && number is not null)
            problems.Add(Codes.WrongNumber, number.Since.Spot, $"\"{id}\" is not a date.", "Numbers are counted from facts whose values are: date.");

        // After a fault in the values the fact still gets some, so that each use of its name is not a fault too.
        var values = cell.Text == "date" ? number?.Values : ValuesReader.Read(cell, problems);
        var isKnown = values is not null;
        if (!isKnown)
            _damaged.Add(id);
        values ??= new FactValues.Named(["yes", "no"]);
        return new Fact(
            0,
            id,
            ReadAbout(columns.Cell(row, "about")),
            values,
            number is not null && cell.Text == "date" ? new CountedFromDate(number.Id.Text, number.Unit) : null,
            ReadAskIn(columns.Cell(row, "ask in")),
            ReadWorse(columns.Cell(row, "worse towards"), values, isKnown),
            ReadClear(columns.Cell(row, "clear"), values, isKnown),
            ReadRedFlag(columns.Cell(row, "red flag")),
            [],
            row.Spot);
    }

    About ReadAbout(PageCell cell)
    {
        if (!cell.IsMissing && cell.Text is not ("person" or "ear"))
            problems.Add(Codes.WrongAbout, cell.Spot, $"\"{cell.Text}\" is not what a fact is about.", "Write person or ear.");
        return cell.Text == "ear" ? About.Ear : About.Person;
    }

    AskIn ReadAskIn(PageCell cell)
    {
        var index = Array.IndexOf(AskIns, cell.Text);
        if (!cell.IsMissing && index < 0)
            problems.AddUnknown(Codes.WrongAskIn, cell.Spot, "time of asking", cell.Text, AskIns);
        return index < 0 ? AskIn.Story : (AskIn)index;
    }

    Worse ReadWorse(PageCell cell, FactValues values, bool isKnown)
    {
        if (Reasoned.Read(cell, "none") is { } because)
            return Because<Worse>(because, cell, "none, because it only chooses the grammar", b => new Worse.NoDirection(b));
        var index = Index(cell.Text, values);
        if (isKnown && !cell.IsMissing && index != 0 && index != values.Count - 1)
            problems.Add(Codes.WrongWorse, cell.Spot, $"\"{cell.Text}\" is not the first and not the last value of the fact.", $"Write \"{values.NameOf(0)}\", \"{values.NameOf(values.Count - 1)}\", or \"none, because …\".");
        return new Worse.Towards(index is { } i && i > 0);
    }

    int? ReadClear(PageCell cell, FactValues values, bool isKnown)
    {
        if (cell.IsNothing)
            return null;
        var index = Index(cell.Text, values);
        if (isKnown && index is null)
            problems.AddUnknown(Codes.WrongClear, cell.Spot, "value", cell.Text, values is FactValues.Named named ? named.Names : [values.NameOf(0), values.NameOf(values.Count - 1)]);
        return index;
    }

    RedFlag ReadRedFlag(PageCell cell)
    {
        if (cell.IsNothing)
            return new RedFlag.Unmarked();
        if (Reasoned.Read(cell, "no") is { } because)
            return Because<RedFlag>(because, cell, "no, because it is an age", b => new RedFlag.Exempt(b));
        if (cell.Text != "yes")
            problems.Add(Codes.WrongRedFlag, cell.Spot, $"\"{cell.Text}\" does not say whether the fact is a red flag.", "Write yes, -, or \"no, because …\" for an age, a time or a medicine in an urgent row.");
        return new RedFlag.Marked();
    }

    T Because<T>(string because, PageCell cell, string example, Func<string, T> make)
    {
        if (because.Length == 0)
            problems.Add(Codes.MissingBecause, cell.Spot, $"\"{cell.Text}\" gives no reason.", $"Write a reason: \"{example}\".");
        return make(because);
    }

    static int? Index(string written, FactValues values) => values.IndexOf(written);
}
