using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Content.Words;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Examples;

/// <summary>Reads the files of <c>dialogs/examples/</c>. Never throws on any file.</summary>
sealed class ExampleReader(Dialog dialog, ProblemList problems)
{
    public const string Must = "must";

    const string FactTable = "fact", ClosedLine = "closed:", Unsure = "unsure", DialogSetting = "examples";

    static readonly string[] Settings = [DialogSetting, "title", "owner", "reviewed on", "review by"];

    readonly ExpectedReader _expected = new(dialog, problems);
    readonly Dictionary<string, Section> _names = new(StringComparer.Ordinal);

    public ImmutableArray<Example> Read(ImmutableArray<SourceFile> files)
    {
        var examples = ImmutableArray.CreateBuilder<Example>();
        foreach (var file in files)
        {
            var page = PageReader.Read(file, problems);
            ReadSettings(page);
            foreach (var section in Section.Of(page, problems))
            {
                if (!_names.TryAdd(section.Name, section))
                    problems.Add(Codes.DoubledName, section.Spot, $"The example \"{section.Name}\" stands twice; first at {_names[section.Name].Spot}.", "Give it another name, or take one of them out.");
                examples.Add(Read(section));
            }
        }

        return examples.ToImmutable();
    }

    void ReadSettings(Page page)
    {
        KnownSettings.Report(page, Settings, problems);
        if (page.Settings.Find(DialogSetting) is not { } of)
            problems.Add(Codes.MissingSetting, page.Settings.Spot, "The file does not say which dialog its examples are of.", $"Add the setting \"{DialogSetting}: {dialog.Id}\".");
        else if (of.Value != dialog.Id)
            problems.AddUnknown(Codes.WrongSetting, of.ValueSpot, "dialog", of.Value, [dialog.Id]);
    }

    Example Read(Section section)
    {
        foreach (var heading in section.Parts.OfType<PagePart.Heading>())
            problems.Add(Codes.UnknownPart, heading.Spot, "A heading stands inside the example.", "Begin an example with a second-level heading: ## what must hold.");
        foreach (var stray in section.Tables.Where(t => t.Kind is not (FactTable or Must)))
            problems.AddUnknown(Codes.UnknownPart, stray.Spot, "table of an example with the heading", stray.Kind, [FactTable, Must]);
        var isClosed = ReadClosed(section);
        var answers = Only(section, FactTable) is { } facts ? ReadAnswers(facts) : [];
        var musts = Only(section, Must) is { } must ? _expected.Read(must) : [];
        return new Example(section.Name, section.Spot, isClosed, answers, musts);
    }

    PageTable? Only(Section section, string kind)
    {
        var tables = section.Tables.Where(t => t.Kind == kind).ToList();
        if (tables.Count == 0)
            problems.Add(Codes.MissingExamplePart, section.Spot, $"The example \"{section.Name}\" has no table \"{kind}\".", kind == Must ? "Add a table \"must | value\" with what must come out." : "Add a table \"fact | answer\" with what the person answered.");
        foreach (var second in tables.Skip(1))
            problems.Add(Codes.DoubledName, second.Spot, $"The example \"{section.Name}\" has two tables \"{kind}\".", "Write all rows into one table, or begin another example with a heading.");
        return tables.FirstOrDefault();
    }

    bool ReadClosed(Section section)
    {
        var (isClosed, hasStory) = (false, false);
        foreach (var text in section.Parts.OfType<PagePart.Text>())
        {
            var line = section.Page.Source.LineAt(text.Spot.Line - 1).Trim();
            if (!line.StartsWith(ClosedLine, StringComparison.OrdinalIgnoreCase))
                hasStory = true;
            else if (line[ClosedLine.Length..].Trim() == "yes")
                isClosed = true;
            else
                problems.Add(Codes.WrongClosed, text.Spot, $"\"{line}\" does not say whether everything else was asked and is clear.", "Write \"closed: yes\", alone between empty lines, or leave the line out.");
        }

        if (!hasStory)
            problems.Add(Codes.MissingExamplePart, section.Spot, $"The example \"{section.Name}\" has no story.", "Say in a sentence who it is, and after \"Expected by\" which evidence says what must come out.");
        return isClosed;
    }

    ImmutableArray<ExampleAnswer> ReadAnswers(PageTable table)
    {
        var columns = Columns.Of(table, [FactTable, "answer"], [], problems);
        var answers = ImmutableArray.CreateBuilder<ExampleAnswer>();
        foreach (var row in table.Rows)
        {
            var name = row.Cells[0];
            var cell = columns.Cell(row, "answer");
            if (name.Text.Length == 0 || cell.IsMissing || cell.Text.Length == 0)
                continue;
            if (dialog.FindFact(name.Text) is not { } fact)
                ReportUnknown(name);
            else if (fact.DecidingId != name.Text)
                problems.Add(Codes.UnknownName, name.Spot, $"\"{name.Text}\" is a date, and an example has no day on which it happens.", $"Write the number counted from it: \"{fact.DecidingId}\".");
            else if (answers.Any(a => a.Fact == fact))
                problems.Add(Codes.DoubledName, name.Spot, $"\"{name.Text}\" is answered twice in one example.", "Keep one of them.");
            else if (ReadValues(fact, cell) is { } mayBe)
                answers.Add(new ExampleAnswer(fact, mayBe));
        }

        return answers.ToImmutable();
    }

    void ReportUnknown(PageCell name)
    {
        if (dialog.NamedFacts.Any(f => f.Id == name.Text))
            problems.Add(Codes.UnknownName, name.Spot, $"\"{name.Text}\" follows from other facts, and nobody is asked it.", "Answer the facts that it follows from.");
        else
            problems.AddUnknown(Codes.UnknownName, name.Spot, "fact", name.Text, dialog.Facts.Select(f => f.DecidingId));
    }

    ValueSet? ReadValues(Fact fact, PageCell cell)
    {
        if (cell.Text == Unsure)
            return fact.Values.All;
        var reading = FactCells.Read(cell.Text, fact.Values);
        if (reading.Fault is { } fault)
            ConditionReader.Report(fault, $"{fact.DecidingId}: ", cell.Spot, problems);
        if (reading.IsAnything)
            problems.Add(Codes.EmptyCell, cell.Spot, $"{fact.DecidingId}: nothing is said of the answer.", "Write a value, a range or unsure, or leave the row out.");
        return reading.Values;
    }
}
