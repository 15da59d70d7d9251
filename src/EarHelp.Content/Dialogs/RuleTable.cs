using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Content.Dialogs;

/// <summary>A decision table with its columns told apart.</summary>
/// <param name="Conditions">Places of the condition columns.</param>
/// <param name="Known">Places of the conclusion columns that the format names.</param>
/// <param name="Facts">Places of the conclusion columns that make a named fact.</param>
sealed partial record RuleTable(
    PageTable Table,
    HitPolicy? Policy,
    ImmutableArray<int> Conditions,
    ImmutableDictionary<string, int> Known,
    ImmutableArray<int> Facts)
{
    public const int MostConditions = 7;

    public const string Level = "level", Where = "where", Warn = "warn", Give = "give", Withhold = "withhold", CountsFrom = "counts from",
        Treat = "clinic may treat", Because = "because", Source = "source", Sure = "sure", AlsoSaidBy = "also said by";

    static readonly string[] Names = [Level, Where, Warn, Give, Withhold, CountsFrom, Treat, Because, Source, Sure, AlsoSaidBy];

    public bool MakesRules => Known.ContainsKey(Level) || Known.ContainsKey(Warn) || Known.ContainsKey(Give) || Known.ContainsKey(Withhold);

    public bool MakesTreatRules => Known.ContainsKey(Treat);

    /// <summary>The name of the table: its heading without the policy.</summary>
    public string Name => PolicyWords.NameOf(Table.Above);

    public PageCell Cell(PageRow row, string conclusion) => Known.TryGetValue(conclusion, out var place)
        ? row.Cells[place]
        : new PageCell("", row.Cells[0].Offset, row.Spot, IsMissing: true);

    public static RuleTable Read(PageTable table, ProblemList problems)
    {
        var conditions = ImmutableArray.CreateBuilder<int>();
        var known = ImmutableDictionary.CreateBuilder<string, int>(StringComparer.Ordinal);
        var facts = ImmutableArray.CreateBuilder<int>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 1; i < table.Headings.Length; i++)
        {
            var heading = table.Headings[i];
            if (!seen.Add(heading.Name))
                problems.Add(Codes.DoubledColumn, heading.Spot, $"The column \"{heading.Name}\" stands twice.", "Keep one of them.");
            else if (!heading.IsBold)
                AddCondition(i, heading, conditions, problems);
            else if (Names.Contains(heading.Name))
                known[heading.Name] = i;
            else if (NearestName.To(heading.Name, Names) is { } near)
                problems.Add(Codes.UnknownConclusion, heading.Spot, $"There is no conclusion column **{heading.Name}**.", $"Did you mean **{near}**?");
            else
                facts.Add(i);
        }

        if (known.Count + facts.Count == 0)
            problems.Add(Codes.UnknownConclusion, table.Spot, "The decision table has no conclusion column.", "Conclusion columns have bold headings: **level**, **where**, **clinic may treat** …");
        var result = new RuleTable(table, PolicyWords.Read(table, problems), conditions.ToImmutable(), known.ToImmutable(), facts.ToImmutable());
        result.ReportShape(problems);
        return result;
    }

    static void AddCondition(int place, PageCell heading, ImmutableArray<int>.Builder conditions, ProblemList problems)
    {
        if (Names.Contains(heading.Text))
            problems.Add(Codes.UnknownConclusion, heading.Spot, $"The conclusion column \"{heading.Text}\" is not bold.", $"Write **{heading.Text}**.");
        else
            conditions.Add(place);
    }

    void ReportShape(ProblemList problems)
    {
        if (Conditions.Length > MostConditions)
        {
            problems.Add(Codes.TooManyConditions, Table.Headings[Conditions[MostConditions]].Spot, $"The table has {Conditions.Length} condition columns; at most {MostConditions} can be read aloud.",
                "Split the table, or make a named fact of several columns (\"any of: …\").");
        }

        if ((MakesRules || MakesTreatRules) && !Known.ContainsKey(Because))
            problems.Add(Codes.MissingReason, Table.Spot, "The decision table has no column **because**.", "Add it; every rule gives its reason.");
        if (!Known.ContainsKey(Source))
            problems.Add(Codes.MissingSource, Table.Spot, "The decision table has no column **source**.", "Add it; every rule names its source.");
        foreach (var row in Table.Rows)
        {
            for (var i = 0; i < Table.Headings.Length; i++)
                EmptyCells.Report(row.Cells[i], Table.Headings[i].Name, problems);
        }
    }

    /// <summary>Permanent: <c>RF-030</c>, rows of one rule <c>RF-030.1</c>.</summary>
    [GeneratedRegex(@"^[A-Za-z][A-Za-z0-9-]*(?:\.[0-9]+)?$", RegexOptions.CultureInvariant)]
    public static partial Regex RuleId();
}
