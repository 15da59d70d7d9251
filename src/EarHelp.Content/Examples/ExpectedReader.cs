using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Examples;

/// <summary>Reads the rows <c>must | value</c> of an example.</summary>
sealed class ExpectedReader(Dialog dialog, ProblemList problems)
{
    const string Level = "level", First = "where (first)", Shown = "advice shown", NotShown = "advice not shown", Shut = "shut by", Warning = "warning", NoWarning = "warning not given",
        Treat = "clinic may treat", DecidedBy = "decided by", Explanation = "explanation", NoExplanation = "explanation not shown";

    const string NotUntil = "not until ";

    static readonly string[] Known = [Level, First, Shown, NotShown, Shut, Warning, NoWarning, Treat, DecidedBy, Explanation, NoExplanation];

    readonly NameIndex _levels = new("level", dialog.Levels.Select(l => l.Id), problems);
    readonly NameIndex _destinations = new("destination", dialog.Destinations.Select(d => d.Id), problems);
    readonly NameIndex _advice = new("advice item", dialog.Advice.Select(a => a.Id), problems);
    readonly NameIndex _warnings = new("warning", dialog.Warnings, problems);
    readonly NameIndex _rules = new("rule", dialog.Rules.Select(r => r.Id), problems);
    readonly NameIndex _explanations = new("explanation", dialog.Explanations.Select(e => e.Id), problems);

    public ImmutableArray<Expected> Read(PageTable table)
    {
        var columns = Columns.Of(table, [ExampleReader.Must, "value"], [], problems);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var expected = ImmutableArray.CreateBuilder<Expected>();
        foreach (var row in table.Rows)
        {
            var must = row.Cells[0];
            var cell = columns.Cell(row, "value");
            if (must.Text.Length == 0 || cell.IsMissing || cell.Text.Length == 0)
                continue;
            if (!Known.Contains(must.Text))
                problems.AddUnknown(Codes.UnknownMust, must.Spot, "row of what must come out", must.Text, Known);
            else if (!seen.Add(must.Text))
                problems.Add(Codes.DoubledName, must.Spot, $"\"{must.Text}\" stands twice in one example.", "Keep one of them; a list of names has commas between.");
            else if (cell.IsNothing)
                problems.Add(Codes.EmptyCell, cell.Spot, $"Nothing is said of what \"{must.Text}\" must be.", "Write what must come out, or leave the row out.");
            else
                expected.AddRange(Read(must.Text, cell));
        }

        return expected.ToImmutable();
    }

    IEnumerable<Expected> Read(string must, PageCell cell) => must switch
    {
        Level => One(_levels, cell, rank => new Expected.Level(rank, cell.Spot)),
        First => One(_destinations, cell, place => new Expected.FirstPlace(place, cell.Spot)),
        Shown => _advice.FindAll(cell).Select(item => new Expected.AdviceShown(item, cell.Spot)),
        NotShown => _advice.FindAll(cell).Select(item => new Expected.AdviceNotShown(item, cell.Spot)),
        Shut => ReadShut(cell),
        Warning => _warnings.FindAll(cell).Select(warning => new Expected.Warning(dialog.Warnings[warning], cell.Spot)),
        NoWarning => _warnings.FindAll(cell).Select(warning => new Expected.WarningNotGiven(dialog.Warnings[warning], cell.Spot)),
        Treat => ReadTreat(cell),
        DecidedBy => [_rules.Find(cell) is { } rule ? new Expected.DecidedBy(rule, cell.Spot) : new Expected.DecidedByMissing(cell.Text, cell.Spot)],
        Explanation => _explanations.FindAll(cell).Select(shown => new Expected.ExplanationShown(shown, cell.Spot)),
        NoExplanation => _explanations.FindAll(cell).Select(hidden => new Expected.ExplanationNotShown(hidden, cell.Spot)),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    static IEnumerable<Expected> One(NameIndex names, PageCell cell, Func<int, Expected> make) => names.Find(cell) is { } found ? [make(found)] : [];

    /// <summary>Entries "item: fact". A fact that the item no longer names is told when the example is assessed.</summary>
    IEnumerable<Expected> ReadShut(PageCell cell)
    {
        foreach (var (text, spot) in cell.SplitAt(','))
        {
            var (item, fact) = text.Split(':', 2, StringSplitOptions.TrimEntries) is [var before, var after] ? (before, after) : (text, "");
            if (fact.Length == 0)
                problems.Add(Codes.EmptyCell, spot, $"\"{text}\" does not say which fact shuts the item.", "Write the item, a colon, and a fact that its \"never if\" names.");
            else if (_advice.Find(new PageCell(item, cell.Offset, spot)) is { } found)
                yield return new Expected.ShutBy(found, fact, spot);
        }
    }

    IEnumerable<Expected> ReadTreat(PageCell cell)
    {
        var hold = cell.Text.StartsWith(NotUntil, StringComparison.Ordinal) ? cell.Text[NotUntil.Length..].Trim() : null;
        if (hold is null ? cell.Text == "yes" : dialog.TreatRules.Any(r => r.Hold == hold))
            return [new Expected.MayTreat(hold, cell.Spot)];
        problems.AddUnknown(Codes.UnknownName, cell.Spot, "answer to whether the clinic may treat", cell.Text,
            dialog.TreatRules.Select(r => r.Hold is { } known ? NotUntil + known : "yes"));
        // What no row says any more never comes out.
        return hold is null ? [] : [new Expected.MayTreat(hold, cell.Spot)];
    }
}
