using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads advice items, explanations and impossible pairs.</summary>
sealed class AdviceReader(ConditionReader conditions, SourceReader sources, ProblemList problems)
{
    static readonly (string Name, AdviceKind Kind)[] Kinds =
    [
        ("to do", AdviceKind.ToDo), ("leave alone", AdviceKind.LeaveAlone), ("get help", AdviceKind.GetHelp), ("protect", AdviceKind.Protect),
    ];

    /// <summary>The names alone, before conditions can be read.</summary>
    public static ImmutableArray<string> Names(ImmutableArray<PageTable> tables) =>
        [.. tables.SelectMany(t => t.Rows).Select(r => r.Cells[0].Text).Where(n => n.Length > 0).Distinct(StringComparer.Ordinal)];

    public ImmutableArray<AdviceItem> ReadAdvice(ImmutableArray<PageTable> tables, NameIndex levels)
    {
        var names = new NameList("advice item", problems);
        var items = ImmutableArray.CreateBuilder<AdviceItem>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Advice, "kind", "about", "only if", "never if", "not while", "source"], [], problems);
            foreach (var row in table.Rows)
            {
                if (!names.Add(row.Cells[0]))
                    continue;
                PageCell Cell(string column) => columns.Cell(row, column);
                items.Add(new AdviceItem(items.Count, row.Cells[0].Text, ReadKind(Cell("kind")), ReadAbout(Cell("about")),
                    conditions.ReadList(Cell("only if")), conditions.ReadList(Cell("never if")), levels.Find(Cell("not while")),
                    sources.Refer(Cell("source"), $"The advice item \"{row.Cells[0].Text}\""), row.Spot));
            }
        }

        return items.ToImmutable();
    }

    public ImmutableArray<Explanation> ReadExplanations(ImmutableArray<PageTable> tables)
    {
        var names = new NameList("explanation", problems);
        var explanations = ImmutableArray.CreateBuilder<Explanation>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Explanation, "only if", "source"], [], problems);
            foreach (var row in table.Rows)
            {
                if (names.Add(row.Cells[0]))
                {
                    explanations.Add(new Explanation(explanations.Count, row.Cells[0].Text, conditions.ReadList(columns.Cell(row, "only if")),
                        sources.Refer(columns.Cell(row, "source"), $"The explanation \"{row.Cells[0].Text}\""), row.Spot));
                }
            }
        }

        return explanations.ToImmutable();
    }

    public ImmutableArray<ImpossiblePair> ReadImpossible(ImmutableArray<PageTable> tables)
    {
        var pairs = ImmutableArray.CreateBuilder<ImpossiblePair>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Impossible, "with", "because"], [], problems);
            foreach (var row in table.Rows)
            {
                var (with, because) = (columns.Cell(row, "with"), columns.Cell(row, "because"));
                if (!because.IsMissing && because.IsNothing)
                    problems.Add(Codes.MissingBecause, because.Spot, "The impossible pair gives no reason.", "Say why the two cannot stand together.");
                if (row.Cells[0].Text.Length > 0 && with.Text.Length > 0
                    && conditions.ReadOne(row.Cells[0].Text, row.Cells[0].Spot) is { } one && conditions.ReadOne(with.Text, with.Spot) is { } other)
                    pairs.Add(new ImpossiblePair(one, other, because.Text, row.Spot));
            }
        }

        return pairs.ToImmutable();
    }

    AdviceKind ReadKind(PageCell cell)
    {
        var place = Array.FindIndex(Kinds, k => k.Name == cell.Text);
        if (place < 0 && !cell.IsMissing)
            problems.AddUnknown(Codes.WrongChoice, cell.Spot, "kind of advice", cell.Text, Kinds.Select(k => k.Name));
        return place < 0 ? AdviceKind.ToDo : Kinds[place].Kind;
    }

    About ReadAbout(PageCell cell)
    {
        if (!cell.IsMissing && cell.Text is not ("person" or "ear"))
            problems.Add(Codes.WrongAbout, cell.Spot, $"\"{cell.Text}\" is not what advice is about.", "Write person or ear.");
        return cell.Text == "ear" ? About.Ear : About.Person;
    }
}
