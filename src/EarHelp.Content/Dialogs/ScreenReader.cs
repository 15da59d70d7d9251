using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Dialogs;

/// <summary>Makes the screens: those that are listed, and one for every other fact.</summary>
static class ScreenReader
{
    public static ImmutableArray<Screen> Read(ImmutableArray<PageTable> tables, ImmutableArray<Fact> facts, ProblemList problems)
    {
        var names = new NameList("screen", problems);
        var byName = new NameIndex("fact", facts.Select(f => f.Id), problems);
        var taken = new HashSet<int>();
        var screens = new List<Screen>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Screen, "asks"], [], problems);
            foreach (var row in table.Rows)
            {
                var cell = columns.Cell(row, "asks");
                var asked = byName.FindAll(cell).Select(i => facts[i]).ToImmutableArray();
                if (!names.Add(row.Cells[0]) || asked.IsEmpty)
                    continue;
                Report(row.Cells[0], cell, asked, taken, facts, problems);
                screens.Add(new Screen(0, row.Cells[0].Text, [.. asked.Select(f => f.Index)], asked[0].AskIn, asked[0].About, row.Spot));
                taken.UnionWith(asked.Select(f => f.Index));
            }
        }

        screens.AddRange(facts.Where(f => !taken.Contains(f.Index)).Select(f => new Screen(0, f.Id, [f.Index], f.AskIn, f.About, f.Spot)));
        return [.. screens.OrderBy(s => s.Facts.Min()).Select((s, i) => s with { Index = i })];
    }

    static void Report(PageCell screen, PageCell cell, ImmutableArray<Fact> asked, HashSet<int> taken, ImmutableArray<Fact> facts, ProblemList problems)
    {
        void Add(string fault, string mend) => problems.Add(Codes.WrongScreen, cell.Spot, fault, mend);
        if (asked.FirstOrDefault(f => taken.Contains(f.Index)) is { } twice)
            Add($"\"{twice.Id}\" stands on another screen already.", "Ask each fact once.");
        if (asked.Length > 1 && asked.FirstOrDefault(f => !f.IsYesNo) is { } other)
            Add($"\"{other.Id}\" is not a yes/no fact.", "Only yes/no facts share a screen; give it a screen of its own.");
        if (asked.FirstOrDefault(f => f.AskIn != asked[0].AskIn) is { } later)
            Add($"\"{asked[0].Id}\" and \"{later.Id}\" are not asked in the same part.", "All facts of a screen have the same \"ask in\".");
        if (asked.FirstOrDefault(f => f.About != asked[0].About) is { } about)
            Add($"\"{asked[0].Id}\" and \"{about.Id}\" are not about the same.", "All facts of a screen are about the person, or all about the ear.");
        if (facts.FirstOrDefault(f => f.Id == screen.Text) is { } same && !asked.Contains(same))
            problems.Add(Codes.DoubledName, screen.Spot, $"The screen \"{screen.Text}\" has the name of a fact that stands on another screen.", "Give it another name.");
    }
}
