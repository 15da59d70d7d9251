using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Words;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Clinics;

/// <summary>Reads <c>content/emergency-numbers.md</c>: what to call abroad.</summary>
static class EmergencyNumbersReader
{
    public const string File = "content/emergency-numbers.md";

    const string Elsewhere = "Anywhere else";

    // The row of the table for a country that is not listed.
    const string AnyOther = "anywhere else";

    const string UsedWhen = "used when";

    public static EmergencyNumbers Read(Page? page, CompiledDialog dialog, ProblemList problems)
    {
        if (page is null)
        {
            problems.Add(Codes.MissingClinicFile, new SourceSpot(File, 1, 1), "There is no such file.", "Write it as content/README.md says: what to call in other countries, and one paragraph for anywhere else.");
            return new EmergencyNumbers([], Prose.Empty);
        }

        KnownSettings.Report(page, ["title", UsedWhen, "owner", "reviewed on", "review by"], problems);
        var numbers = ReadCountries(page, dialog.Sources, problems);
        var anyOther = numbers.FirstOrDefault(n => n.Country == AnyOther);
        var abroad = page.Settings.Find(UsedWhen) is { } setting ? ReadAbroad(setting, dialog, problems) : null;
        if (abroad is not null && anyOther is null)
            problems.Add(Codes.NoFallbackNumber, abroad.Spot, "No row says what to call where the country is not known.", $"Add a row \"{AnyOther}\" to the table.");
        return new EmergencyNumbers([.. numbers.Where(n => n != anyOther)], ReadElsewhere(page, problems), anyOther, abroad);
    }

    /// <summary>It must be answered by the person, since a named fact may follow from an ear's.</summary>
    static Condition? ReadAbroad(Setting setting, CompiledDialog dialog, ProblemList problems)
    {
        var condition = dialog.Conditions.ReadOne(setting.Value, setting.ValueSpot);
        if (condition is null || (!condition.Of.IsNamedFact && dialog.Dialog.Facts[condition.Of.Index].About == About.Person))
            return condition;
        problems.Add(Codes.WrongCondition, setting.ValueSpot, $"\"{setting.Value}\" is not what a person answers about themselves.", "Name the fact that says where the person is, for example \"where now: abroad\".");
        return null;
    }

    static ImmutableArray<EmergencyNumber> ReadCountries(Page page, SourceReader sources, ProblemList problems)
    {
        var numbers = ImmutableArray.CreateBuilder<EmergencyNumber>();
        foreach (var table in page.Tables)
        {
            var columns = Columns.Of(table, ["country", "call", "without hearing", "source"], [], problems);
            foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
            {
                var (call, without) = (columns.Cell(row, "call"), columns.Cell(row, "without hearing"));
                if (!without.IsMissing && without.IsNothing)
                    problems.Add(Codes.ClinicWithoutTwin, without.Spot, $"For {row.Cells[0].Text} no way without hearing is given.", "Say how to reach help without hearing; where nothing is known, by showing the page to a person nearby.");
                if (numbers.Any(n => n.Country == row.Cells[0].Text))
                    problems.Add(Codes.DoubledName, row.Spot, $"\"{row.Cells[0].Text}\" is listed twice.", "Keep one of them.");
                numbers.Add(new EmergencyNumber(row.Cells[0].Text, call.Text, without.Text, string.Join(", ", sources.Refer(columns.Cell(row, "source"), $"The number of {row.Cells[0].Text}"))));
            }
        }

        return numbers.ToImmutable();
    }

    static Prose ReadElsewhere(Page page, ProblemList problems)
    {
        var parts = page.Parts.SkipWhile(p => p is not PagePart.Heading { Words: Elsewhere }).Skip(1).TakeWhile(p => p is not PagePart.Heading { Level: <= 2 }).ToList();
        var prose = new ProseReader(page.Source, BlankNames.InAnyText, problems).Read(parts, parts.FirstOrDefault()?.Spot ?? page.Source.SpotAt(0));
        if (prose.IsEmpty)
            problems.Add(Codes.NoFallbackNumber, page.Source.SpotAt(0), "Nothing says what to call in a country that is not listed.", $"Add a heading \"## {Elsewhere}\" and one paragraph below it.");
        TwinCheck.Report([prose], prose.Spot, problems);
        return prose;
    }
}
