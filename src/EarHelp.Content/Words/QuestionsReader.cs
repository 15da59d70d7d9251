using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads the words of the screens.</summary>
sealed class QuestionsReader(Dialog dialog, ProblemList problems)
{
    static readonly string[] EntryOptional = ["again", "short", "said as"];
    static readonly string[] OptionOptional = ["said as"];

    public FrozenDictionary<string, QuestionWords> Read(ImmutableArray<Section> sections, string language)
    {
        var words = new Dictionary<string, QuestionWords>(StringComparer.Ordinal);
        foreach (var section in sections)
        {
            if (dialog.Screens.FirstOrDefault(s => s.Id == section.Name) is not { } screen)
            {
                var near = NearestName.To(section.Name, dialog.Screens.Select(s => s.Id));
                problems.Add(Codes.WordsForNothing, section.Spot, $"There is no screen \"{section.Name}\".", near is null ? "Take the section out, or add the name to the dialogs." : $"Did you mean \"{near}\"?");
            }
            else if (!words.TryAdd(screen.Id, QuestionOf(section, screen)))
            {
                problems.Add(Codes.NameTaken, section.Spot, $"The section \"{section.Name}\" stands twice.", "Keep one of them.");
            }
        }

        foreach (var screen in dialog.Screens.Where(s => !words.ContainsKey(s.Id)))
            problems.Add(Codes.MissingWords, screen.Spot, $"The screen \"{screen.Id}\" has no words in \"{language}\".", $"Write a section \"## {screen.Id}\" in a page with \"words: questions\" in content/{language}/.");
        return words.ToFrozenDictionary(StringComparer.Ordinal);
    }

    QuestionWords QuestionOf(Section section, Screen screen)
    {
        var entries = screen.IsChecklist ? Entries(section, screen) : [];
        var options = screen.IsChecklist ? [] : Options(section, dialog.Facts[screen.Facts[0]]);
        var again = Label("Again", false);
        if (!screen.IsChecklist && again.IsEmpty && dialog.Facts[screen.Facts[0]].RedFlag is RedFlag.Marked)
            problems.Add(Codes.MissingSecondWording, section.Spot, $"The red flag \"{section.Name}\" has no second wording.", "Write \"**Again:** …\" with a way to tell.");
        var none = section.Labelled("None")?.Source;
        if (screen.IsChecklist && none is null)
            problems.Add(Codes.MissingLabel, section.Spot, $"The checklist \"{section.Name}\" has no \"none of these\".", "Write \"**None:** None of these\".");
        return new QuestionWords(
            screen.Id,
            Label("Ask", true),
            Label("Why", true),
            Label("Note", false),
            again,
            none,
            section.Labelled("Short")?.Source ?? section.Name,
            options,
            entries,
            section.Spot);

        Prose Label(string label, bool isNeeded)
        {
            if (section.Labelled(label) is { } found)
                return ProseReader.Read([found], problems);
            if (isNeeded)
                problems.Add(Codes.MissingLabel, section.Spot, $"The question \"{section.Name}\" has no \"{label}\".", $"Write \"**{label}:** …\".");
            return Prose.Empty;
        }
    }

    ImmutableArray<EntryWords> Entries(Section section, Screen screen)
    {
        var entries = new Dictionary<int, EntryWords>();
        foreach (var table in section.Parts.OfType<PagePart.Table>())
        {
            if (Columns.Read(table, ["entry"], EntryOptional, problems) is not { } columns)
                continue;
            foreach (var row in table.Rows)
            {
                var fact = screen.Facts.Where(f => dialog.Facts[f].Id == row.Cells[0].Text).Cast<int?>().FirstOrDefault();
                if (fact is null)
                {
                    Names.ReportUnknown(row.Cells[0].Text, row.Cells[0].Spot, "fact on this screen", screen.Facts.Select(f => dialog.Facts[f].Id), problems);
                    continue;
                }

                var again = columns.Find(row, "again");
                if (again is null && dialog.Facts[fact.Value].RedFlag is RedFlag.Marked)
                    problems.Add(Codes.MissingSecondWording, row.Spot, $"The red flag \"{row.Cells[0].Text}\" has no second wording.", "Write one in the column again, with a way to tell.");
                var entry = columns.Of(row, "entry");
                entries[fact.Value] = new EntryWords(
                    fact.Value,
                    ProseReader.Read(entry.Text, entry.Spot, problems),
                    again is null ? Prose.Empty : ProseReader.Read(again.Text, again.Spot, problems),
                    columns.Find(row, "short")?.Text ?? row.Cells[0].Text,
                    WordsReader.Phrases(columns.Find(row, "said as")?.Text),
                    row.Spot);
            }
        }

        foreach (var fact in screen.Facts.Where(f => !entries.ContainsKey(f)))
            problems.Add(Codes.MissingWords, section.Spot, $"The checklist \"{section.Name}\" has no entry for \"{dialog.Facts[fact].Id}\".", "Add a row for it to the table \"fact, entry\".");
        return [.. screen.Facts.Where(entries.ContainsKey).Select(f => entries[f])];
    }

    ImmutableArray<OptionWords> Options(Section section, Fact fact)
    {
        var options = ImmutableArray.CreateBuilder<OptionWords>();
        foreach (var table in section.Parts.OfType<PagePart.Table>())
        {
            var heading = fact.Counted switch
            {
                null => fact.Id,
                { Unit: CountUnit.Days } => "days ago",
                _ => "hours ago",
            };
            if (TableKind.Of(table) != heading)
                problems.Add(Codes.BadOption, table.Headings[0].Spot, $"The first heading is \"{TableKind.Of(table)}\".", $"Write \"{heading}\".");
            if (Columns.Read(table, ["option"], OptionOptional, problems) is not { } columns)
                continue;
            foreach (var row in table.Rows)
            {
                if (ValuesOf(row.Cells[0], fact) is { } values)
                    options.Add(new OptionWords(values, columns.Of(row, "option").Text, WordsReader.Phrases(columns.Find(row, "said as")?.Text), row.Spot));
            }
        }

        if (options.Count == 0 && fact.Values is FactValues.Named { IsYesNo: false })
            problems.Add(Codes.MissingWords, section.Spot, $"The question \"{section.Name}\" has no options.", $"Write a table with the headings {fact.Id}, option.");
        if (fact.Values is FactValues.Named named && options.Count > 0)
        {
            foreach (var value in Enumerable.Range(0, named.Count).Where(v => !options.Any(o => o.Values.Contains(v))))
                problems.Add(Codes.MissingWords, section.Spot, $"The question \"{section.Name}\" has no option for \"{named.NameOf(value)}\".", "Add a row for it.");
        }

        return options.ToImmutable();
    }

    ValueSet? ValuesOf(Cell cell, Fact fact)
    {
        var reading = FactCells.Read(cell.Text, fact.Values);
        if (reading.Values is { } values && (fact.Values is FactValues.Numbers || values.Only is not null))
            return values;
        problems.Add(Codes.BadOption, cell.Spot, reading.Fault?.Fault ?? $"\"{cell.Text}\" is not one value of \"{fact.Id}\".", reading.Fault?.Mend ?? "Write one value, or for a number a range such as [3..5].");
        return null;
    }
}
