using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Comparing;

/// <summary>The rows that differ between two dialogs, by what they say and not by how they are spelled.</summary>
static class Edits
{
    public static ImmutableArray<Edit> Between(Dialog before, Dialog after)
    {
        var (old, now) = (new RowText(before), new RowText(after));
        return
        [
            .. Of("rule", before.Rules, after.Rules, r => r.Id, r => r.Spot, old.Of, now.Of),
            .. Of("row", before.TreatRules, after.TreatRules, t => t.Id, t => t.Spot, old.Of, now.Of),
            .. Of("named fact", before.NamedFacts, after.NamedFacts, n => n.Id, n => n.Spot, old.Of, now.Of),
            .. Of("fact", Written(before), Written(after), f => f.DecidingId, f => f.Spot, old.Of, now.Of),
            .. Of("advice item", before.Advice, after.Advice, a => a.Id, a => a.Spot, old.Of, now.Of),
            .. Of("explanation", before.Explanations, after.Explanations, e => e.Id, e => e.Spot, old.Of, now.Of),
            .. Of(Edit.DropsPlan, before.DropsPlans.Select(p => new NamedRow(before.Advice[p.Advice].Id, RowText.Of(p), p.Spot)), after.DropsPlans.Select(p => new NamedRow(after.Advice[p.Advice].Id, RowText.Of(p), p.Spot))),
            .. Of(Edit.Finding, before.Findings, after.Findings, f => f.Id, f => f.Spot, old.Of, now.Of),
            .. Of(Edit.Aftercare, before.Aftercare.Select(s => new NamedRow(before.Advice[s.Advice].Id, old.Of(s), s.Spot)), after.Aftercare.Select(s => new NamedRow(after.Advice[s.Advice].Id, now.Of(s), s.Spot))),
            .. Of("destination", before.Destinations, after.Destinations, d => d.Id, d => d.Spot, old.Of, now.Of),
            .. Of("level", before.Levels, after.Levels, l => l.Id, l => l.Spot, RowText.Of, RowText.Of),
            .. Of("screen", before.Screens, after.Screens, s => s.Id, s => s.Spot, old.Of, now.Of),
            .. Of("impossible pair", Written(before.Impossible), Written(after.Impossible), old.Of, i => i.Spot, old.Of, now.Of),
        ];
    }

    static ImmutableArray<Fact> Written(Dialog dialog) => [.. dialog.Facts.Where(f => f.Spot != default)];

    static ImmutableArray<ImpossiblePair> Written(ImmutableArray<ImpossiblePair> pairs) => [.. pairs.Where(p => p.Spot != default)];

    static IEnumerable<Edit> Of(string kind, IEnumerable<NamedRow> before, IEnumerable<NamedRow> after) =>
        Of<NamedRow>(kind, [.. before], [.. after], r => r.Name, r => r.Spot, r => r.Says, r => r.Says);

    static IEnumerable<Edit> Of<T>(
        string kind, ImmutableArray<T> before, ImmutableArray<T> after, Func<T, string> name, Func<T, SourceSpot> spot, Func<T, string> old, Func<T, string> now)
        where T : class
    {
        foreach (var row in after)
        {
            var was = before.FirstOrDefault(b => name(b) == name(row));
            if (was is null)
                yield return new Edit(kind, name(row), "added", spot(row));
            else if (old(was) != now(row))
                yield return new Edit(kind, name(row), "changed", spot(row));
        }

        foreach (var row in before.Where(b => after.All(a => name(a) != name(b))))
            yield return new Edit(kind, name(row), "taken out", spot(row));

        var common = before.Select(name).Intersect(after.Select(name)).ToArray();
        foreach (var (row, _) in after.Where(a => common.Contains(name(a))).Zip(common).Where(p => name(p.First) != p.Second))
            yield return new Edit(kind, name(row), "moved", spot(row));
    }

    /// <summary>A row that is known by the advice item it is about.</summary>
    sealed record NamedRow(string Name, string Says, SourceSpot Spot);
}
