using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;

namespace EarHelp.Content.Dialogs;

/// <summary>Tables are known by their first heading.</summary>
static class TableKind
{
    public const string AnyOf = "any of:";
    public const string AllOf = "all of:";

    static readonly string[] InDialogs =
        ["level", "destination", "source", "fact", "number", "rule", "screen", "impossible", "advice", "explanation"];

    public static string Of(PagePart.Table table) => table.Headings.IsEmpty ? string.Empty : table.Headings[0].Plain;

    public static IEnumerable<(Page Page, PagePart.Table Table)> Find(ImmutableArray<Page> pages, string kind) =>
        from page in pages
        where page.IsDialogs
        from table in page.Parts.OfType<PagePart.Table>()
        where Of(table) == kind
        select (page, table);

    public static bool IsNamedFact(PagePart.Table table) =>
        Of(table).StartsWith(AnyOf, StringComparison.Ordinal) || Of(table).StartsWith(AllOf, StringComparison.Ordinal);

    /// <summary>A heading that is nearly one of the known ones is a slip, not an ordinary table.</summary>
    public static void ReportSlips(ImmutableArray<Page> pages, ProblemList problems)
    {
        foreach (var table in pages.Where(p => p.IsDialogs).SelectMany(p => p.Parts.OfType<PagePart.Table>()))
        {
            var kind = Of(table);
            if (InDialogs.Contains(kind, StringComparer.Ordinal) || IsNamedFact(table))
                continue;
            var head = kind.Split(':')[0].Trim();
            var near = NearestName.To(head, InDialogs.Concat(["any of", "all of"]));
            if (near is not null && head.Length > 2)
            {
                problems.Add(
                    Codes.UnknownTable,
                    table.Headings[0].Spot,
                    $"No table begins with the heading \"{kind}\".",
                    $"Did you mean \"{near}\"? An ordinary table needs a first heading that is not so close to it.");
            }
        }
    }
}
