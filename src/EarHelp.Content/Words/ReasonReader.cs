using System.Collections.Frozen;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads the reasons that a patient is given, one a rule or one a row.</summary>
sealed class ReasonReader(CompiledDialog compiled, WordPages pages, AdviceWords adviceWords, ProblemList problems)
{
    public FrozenDictionary<string, Prose> Read()
    {
        var keys = new WordKeys<Prose>("rule", pages.Language, problems, name => $"a row \"{name}\"");
        var blanks = BlankNames.InAnyText.And(compiled.Scope.Names.Concat(compiled.Dialog.Facts.Select(f => f.Id)));
        foreach (var page in pages.Of(WordPages.Reasons))
        {
            var reader = new ProseReader(page.Source, blanks, problems);
            foreach (var table in page.Tables)
            {
                var columns = Columns.Of(table, ["rule", "reason"], [], problems);
                foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
                    keys.Add(row.Cells[0].Text, row.Spot, () => ReadOne(reader.ReadCell(columns.Cell(row, "reason")), row.Spot, page));
            }
        }

        var rules = compiled.Dialog.Rules;
        keys.Hold(
            [.. rules.Where(r => r.Level is not null && !keys.Has(r.Owner)).Select(r => (r.Id, r.Spot))],
            [.. rules.SelectMany(r => new[] { r.Id, r.Owner }), .. compiled.Dialog.TreatRules.Select(r => r.Id)]);
        return keys.ToFrozen();
    }

    Prose ReadOne(Prose prose, SourceSpot spot, Page page)
    {
        TwinCheck.Report([prose], spot, problems);
        adviceWords.Report(WordPages.Reasons, prose, new WordSpots(page.Source, spot).Find, problems);
        return prose;
    }
}
