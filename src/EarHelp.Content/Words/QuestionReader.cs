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

/// <summary>Reads the words of one screen.</summary>
sealed class QuestionReader(Dialog dialog, ProblemList problems)
{
    static readonly string[] Labels = ["Ask", "Why", "Note", "Again", "None", "Short"];
    static readonly string[] NeededLabels = ["Ask", "Why"];

    public QuestionWords Read(Section section, Screen screen)
    {
        var prose = new ProseReader(section.Page.Source, BlankNames.InAnyText, problems);
        var parts = LabelledParts.Read(section, prose, Labels, null, problems);
        foreach (var label in NeededLabels.Where(l => parts.Of(l).IsEmpty))
            problems.Add(Codes.MissingPart, section.Spot, $"The question \"{section.Name}\" has no \"{label}:\".", $"Add a paragraph that begins with **{label}:**");
        if (screen.IsChecklist && parts.Of("None").IsEmpty)
            problems.Add(Codes.MissingPart, section.Spot, $"The checklist \"{section.Name}\" has no \"None:\".", "Add a paragraph **None:** with the words for \"none of these\".");
        var entries = screen.IsChecklist ? ReadEntries(section, screen, prose) : [];
        var options = screen.IsChecklist ? [] : ReadOptions(section, dialog.Facts[screen.Facts[0]], parts);
        return new QuestionWords(section.Name, parts.Of("Ask"), parts.Of("Why"), parts.Of("Note"), parts.Of("Again"), parts.LineOf("None"),
            parts.LineOf("Short") ?? section.Name, options, entries, section.Spot);
    }

    ImmutableArray<OptionWords> ReadOptions(Section section, Fact fact, LabelledParts parts)
    {
        if (fact.RedFlag is RedFlag.Marked && parts.Of("Again").IsEmpty)
            problems.Add(Codes.MissingAgain, section.Spot, $"\"{fact.Id}\" is a red flag, and its question has no second wording.", "Add a paragraph **Again:** that gives a way to tell, and asks about the whole time of the rule.");
        var first = fact.Counted switch { { Unit: CountUnit.Hours } => "hours ago", not null => "days ago", null => fact.Id };
        var options = ImmutableArray.CreateBuilder<OptionWords>();
        foreach (var table in section.Tables)
        {
            if (table.Kind != first)
            {
                problems.AddUnknown(Codes.UnknownPart, table.Spot, $"table of options for \"{fact.Id}\" with the heading", table.Kind, [first]);
                continue;
            }

            var columns = Columns.Of(table, [first, "option"], ["said as"], problems, mayBeEmpty: ["said as"]);
            foreach (var row in table.Rows)
            {
                if (ReadValues(row.Cells[0], fact) is not { } values)
                    continue;
                if (options.FirstOrDefault(o => o.Values.Equals(values)) is { } same)
                    problems.Add(Codes.DoubledName, row.Spot, $"\"{row.Cells[0].Text}\" stands twice among the options; first at {same.Spot}.", "Keep one of them.");
                else
                    options.Add(new OptionWords(values, columns.Cell(row, "option").Text, SaidAs.Read(columns.Cell(row, "said as")), row.Spot));
            }
        }

        if (!section.Tables.Any() && fact.Values is FactValues.Named { IsYesNo: false })
            problems.Add(Codes.MissingPart, section.Spot, $"The question \"{section.Name}\" has no table of options.", $"Add a table \"{first} | option | said as\".");
        return options.ToImmutable();
    }

    ValueSet? ReadValues(PageCell cell, Fact fact)
    {
        if (cell.Text.Length == 0)
            return null;
        var reading = FactCells.Read(cell.Text, fact.Values);
        if (reading.Fault is { } fault)
            ConditionReader.Report(fault, $"{fact.Id}: ", cell.Spot, problems);
        if (reading.IsAnything)
            problems.Add(Codes.WrongOption, cell.Spot, "An option stands for anything.", "Name a value or a range; \"not sure\" is offered beside every question.");
        else if (reading.Values is { Ranges.Length: > 1 })
            problems.Add(Codes.WrongOption, cell.Spot, $"\"{cell.Text}\" stands for values that do not lie side by side.", "An option stands for one value or one range.");
        else if (reading.Values is { Count: > 1 } && fact.Values is FactValues.Named)
            problems.Add(Codes.WrongOption, cell.Spot, $"\"{cell.Text}\" stands for several values.", "Give each named value an option of its own.");
        return reading.Values;
    }

    ImmutableArray<EntryWords> ReadEntries(Section section, Screen screen, ProseReader prose)
    {
        var facts = new NameIndex("fact", dialog.Facts.Select(f => f.Id), problems);
        var entries = ImmutableArray.CreateBuilder<EntryWords>();
        foreach (var table in section.Tables)
        {
            if (table.Kind != "fact")
                problems.AddUnknown(Codes.UnknownPart, table.Spot, "table of a checklist with the heading", table.Kind, ["fact"]);
            var columns = Columns.Of(table, [table.Kind, "entry", "short"], ["again", "said as", "place"], problems, mayBeEmpty: ["again", "said as", "place"]);
            foreach (var row in table.Rows)
            {
                if (facts.Find(row.Cells[0]) is not { } index)
                    continue;
                if (!screen.Facts.Contains(index))
                    problems.Add(Codes.WordsForNothing, row.Spot, $"The screen \"{screen.Id}\" does not ask \"{row.Cells[0].Text}\".", "Move the row to the screen that asks it.");
                else if (entries.Any(e => e.Fact == index))
                    problems.Add(Codes.DoubledName, row.Spot, $"\"{row.Cells[0].Text}\" stands twice in the checklist.", "Keep one of them.");
                else
                    entries.Add(ReadEntry(row, columns, dialog.Facts[index], prose));
            }
        }

        foreach (var fact in screen.Facts.Where(f => entries.All(e => e.Fact != f)).Select(f => dialog.Facts[f]))
            problems.Add(Codes.MissingWords, section.Tables.FirstOrDefault()?.Spot ?? section.Spot, $"The checklist \"{screen.Id}\" has no words for \"{fact.Id}\", which stands at {fact.Spot}.", "Add a row to its table, or correct the name there.");
        return [.. entries.OrderBy(e => screen.Facts.IndexOf(e.Fact))];
    }

    EntryWords ReadEntry(PageRow row, Columns columns, Fact fact, ProseReader prose)
    {
        var again = columns.Cell(row, "again");
        if (fact.RedFlag is RedFlag.Marked && again.IsNothing && (columns.Has("again") || !again.IsMissing || row.Cells.All(c => !c.IsMissing)))
            problems.Add(Codes.MissingAgain, again.Spot, $"\"{fact.Id}\" is a red flag, and its entry has no second wording.", "Fill the column \"again\": a way to tell, about the whole time of the rule.");
        return new EntryWords(fact.Index, prose.ReadCell(columns.Cell(row, "entry")), prose.ReadCell(again), columns.Cell(row, "short").Text, SaidAs.Read(columns.Cell(row, "said as")), row.Spot)
        {
            Place = ReadPlace(columns.Cell(row, "place")),
        };
    }

    string ReadPlace(PageCell cell)
    {
        if (cell.IsNothing || EarPlaces.All.Contains(cell.Text))
            return cell.IsNothing ? string.Empty : cell.Text;
        problems.AddUnknown(Codes.UnknownPart, cell.Spot, "place on the ear's drawing", cell.Text, EarPlaces.All);
        return string.Empty;
    }
}
