using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Cli.Exporting;

/// <summary>The tables of a dialog as decision tables of the standard.</summary>
sealed class DmnTables(Dialog dialog)
{
    const string First = "FIRST", Priority = "PRIORITY", RuleOrder = "RULE ORDER";

    public static string IdOf(NamedFact named) => FormattableString.Invariant($"named-{named.Index + 1}");

    public ImmutableArray<DmnTable> All() =>
    [
        .. dialog.NamedFacts.Select(Named),
        .. dialog.Rules.GroupBy(r => r.Table, StringComparer.Ordinal).Select((g, i) => Written(g.Key, i, [.. g])),
        Level(),
        .. dialog.TreatRules.IsEmpty ? (IEnumerable<DmnTable>)[] : [Treat()],
        .. dialog.Advice.Select(Advice),
    ];

    DmnTable Named(NamedFact named) => new(
        IdOf(named),
        named.Id,
        First,
        [new DmnOutput(named.Id, [.. named.Values.Names.Select(FeelCell.Text)], named.Otherwise is { } otherwise ? FeelCell.Text(named.Values.NameOf(otherwise)) : null)],
        [.. named.Rows.Select(r => new DmnRow(r.Conditions, [FeelCell.Text(named.Values.NameOf(r.Value))], string.Join(", ", r.Sources)))]);

    /// <summary>A table as its authors wrote it: all rows that match, without the one for all others.</summary>
    DmnTable Written(string name, int index, ImmutableArray<Rule> rows) => new(
        FormattableString.Invariant($"table-{index + 1}"),
        name,
        RuleOrder,
        [.. ((string[])["rule", "level", "where", "warn", "give", "withhold"]).Select(o => new DmnOutput(o, [], null))],
        [
            .. rows.Where(r => !r.IsOtherwise).Select(r => new DmnRow(
                r.Conditions,
                [
                    FeelCell.Text(r.Id), r.Level is { } level ? FeelCell.Text(dialog.Levels[level].Id) : "null", List(r.Where.Select(d => dialog.Destinations[d].Id)), List(r.Warn),
                    List(r.Give.Select(a => dialog.Advice[a].Id)), List(r.Withhold.Select(a => dialog.Advice[a].Id)),
                ],
                r.Because)),
        ]);

    /// <summary>All tables together: the most urgent matching row; the row for all others stands as what holds if none matches.</summary>
    DmnTable Level() => new(
        "level",
        "level",
        Priority,
        [new DmnOutput("level", [.. dialog.Levels.Select(l => FeelCell.Text(l.Id))], dialog.Rules.Where(r => r.IsOtherwise).OrderBy(r => r.Level).Select(r => FeelCell.Text(dialog.Levels[r.Level!.Value].Id)).FirstOrDefault())],
        [.. dialog.Rules.Where(r => r.Level is not null && !r.IsOtherwise).Select(r => new DmnRow(r.Conditions, [FeelCell.Text(dialog.Levels[r.Level!.Value].Id)], r.Id))]);

    DmnTable Treat() => new(
        "may-treat",
        "may this clinic treat",
        First,
        [new DmnOutput("may treat", [], null)],
        [.. dialog.TreatRules.Select(t => new DmnRow(t.Conditions, [FeelCell.Text(t.Hold is null ? "yes" : $"not until {t.Hold}")], t.Id))]);

    /// <summary>What forbids the item comes first, then what calls for it. The level that it waits for is not part of the table.</summary>
    DmnTable Advice(AdviceItem item)
    {
        var giving = dialog.Rules.Where(r => r.Give.Contains(item.Index)).ToArray();
        IEnumerable<DmnRow> calling =
        [
            .. giving.Select(r => new DmnRow(r.Conditions, ["true"], r.Id)),
            .. giving.Length > 0 && item.OnlyIf.IsEmpty ? (IEnumerable<DmnRow>)[] : [new DmnRow(item.OnlyIf, ["true"], "only if")],
        ];
        return new DmnTable(
            FormattableString.Invariant($"advice-{item.Index + 1}"),
            item.Id,
            First,
            [new DmnOutput("is called for", [], "false")],
            [
                .. item.NeverIf.Select(c => new DmnRow([c], ["false"], "never if")),
                .. dialog.Rules.Where(r => r.Withhold.Contains(item.Index)).Select(r => new DmnRow(r.Conditions, ["false"], r.Id)),
                .. calling,
            ]);
    }

    static string List(IEnumerable<string> texts) => $"[{string.Join(", ", texts.Select(FeelCell.Text))}]";
}
