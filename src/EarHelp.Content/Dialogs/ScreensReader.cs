using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Asking;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads which yes/no facts share a screen; every other fact has a screen of its own.</summary>
static class ScreensReader
{
    static readonly string[] Needed = ["asks"];

    public static void Read(DialogDraft draft)
    {
        var screens = new List<(string Id, ImmutableArray<int> Facts, Triage.Texts.SourceSpot Spot)>();
        var placed = new HashSet<int>();
        foreach (var (_, table) in TableKind.Find(draft.Pages, "screen"))
        {
            if (Columns.Read(table, Needed, [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows)
            {
                var facts = ImmutableArray.CreateBuilder<int>();
                foreach (var (name, spot) in Names.List(columns.Of(row, "asks")))
                {
                    var index = draft.Facts.FindIndex(f => f.Id == name);
                    if (index < 0)
                        Names.ReportUnknown(name, spot, "fact", draft.Facts.Select(f => f.Id), draft.Problems);
                    else if (!placed.Add(index))
                        draft.Problems.Add(Codes.BadScreen, spot, $"\"{name}\" stands on two screens.", "Leave it on one.");
                    else
                        facts.Add(index);
                }

                Check(draft, row.Cells[0], facts.ToImmutable());
                if (facts.Count > 0)
                    screens.Add((row.Cells[0].Text, [.. facts.Order()], row.Spot));
            }
        }

        screens.AddRange(draft.Facts.Where(f => !placed.Contains(f.Index)).Select(f => (f.Id, ImmutableArray.Create(f.Index), f.Spot)));
        foreach (var (id, facts, spot) in screens.OrderBy(s => s.Facts[0]))
        {
            var first = draft.Facts[facts[0]];
            draft.Screens.Add(new Screen(draft.Screens.Count, id, facts, first.AskIn, first.About, spot));
        }
    }

    static void Check(DialogDraft draft, Reading.Cell name, ImmutableArray<int> facts)
    {
        var read = facts.Select(f => draft.Facts[f]).ToArray();
        if (read.Any(f => !f.IsYesNo))
            draft.Problems.Add(Codes.BadScreen, name.Spot, $"The screen \"{name.Text}\" asks a fact that is not yes or no.", "Give that fact a screen of its own: take it out of this row.");
        if (read.Select(f => (f.AskIn, f.About)).Distinct().Count() > 1)
            draft.Problems.Add(Codes.BadScreen, name.Spot, $"The facts of the screen \"{name.Text}\" differ in \"ask in\" or in \"about\".", "Put them on two screens.");
    }
}
