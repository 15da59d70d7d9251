using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;

namespace EarHelp.Content.Dialogs;

/// <summary>The tables of the dialogs, by what their first heading says they are.</summary>
sealed class TableKinds
{
    public const string Level = "level", Destination = "destination", Source = "source", Fact = "fact", Number = "number",
        Rule = "rule", Screen = "screen", Impossible = "impossible", Advice = "advice", Explanation = "explanation", DropsPlan = "drops plan", Finding = "finding", Aftercare = "aftercare",
        AnyOf = "any of:", AllOf = "all of:";

    static readonly string[] Plain = [Level, Destination, Source, Fact, Number, Rule, Screen, Impossible, Advice, Explanation, DropsPlan, Finding, Aftercare];

    // Levels, destinations and sources belong to every dialog.
    static readonly string[] OfNoDialog = [Level, Destination, Source];

    readonly ILookup<string, PageTable> _tables;

    TableKinds(ILookup<string, PageTable> tables) => _tables = tables;

    public ImmutableArray<PageTable> Of(string kind) => [.. _tables[kind]];

    public ImmutableArray<PageTable> NamedFacts => [.. _tables[AnyOf].Concat(_tables[AllOf])];

    public static TableKinds Sort(IEnumerable<Page> pages, ProblemList problems)
    {
        var found = new List<(string Kind, PageTable Table)>();
        foreach (var page in pages)
        {
            foreach (var table in page.Tables)
            {
                if (KindOf(table, problems) is not { } kind)
                    continue;
                found.Add((kind, table));
                if (page.Settings.Find("dialog") is null && !OfNoDialog.Contains(kind))
                    problems.Add(Codes.MissingSetting, page.Settings.Spot, $"The file holds a table \"{table.Kind}\" and does not say to which dialog it belongs.", "Add the setting \"dialog: ear\" at the top of the file.");
            }
        }

        return new TableKinds(found.ToLookup(f => f.Kind, f => f.Table));
    }

    static string? KindOf(PageTable table, ProblemList problems)
    {
        var first = table.Kind;
        if (first.StartsWith(AnyOf, StringComparison.Ordinal) || first.StartsWith(AllOf, StringComparison.Ordinal))
            return first[..AnyOf.Length];
        if (Plain.Contains(first))
            return first;
        var near = NearestName.To(first, Plain) ?? NearestName.To(first.Split(' ', ':')[0] + ":", ["any:", "all:"]) switch
        {
            not null when first.Contains(':', StringComparison.Ordinal) => "any of: name",
            _ => null,
        };
        if (near is not null)
            problems.Add(Codes.TableNearMiss, table.Spot, $"The table \"{first}\" is not run, but its heading is close to \"{near}\".", $"Write \"{near}\" if that is meant, else choose another heading.");
        return null;
    }
}
