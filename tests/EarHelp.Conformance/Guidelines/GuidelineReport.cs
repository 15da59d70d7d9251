using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using EarHelp.Triage.Editions;

namespace EarHelp.Conformance.Guidelines;

/// <summary>Source by source: what of the service rests on it, what holds it, and whether anything is open.</summary>
sealed partial class GuidelineReport(Edition edition, string leftOut)
{
    /// <summary>Recommendations of NG98 with the rules that stand for them, or the reason why there is none.</summary>
    public ImmutableArray<(string Recommendation, string Rules, string Status)> Recommendations =>
    [
        .. CheckValue.Rows(leftOut[leftOut.IndexOf("## NG98", StringComparison.Ordinal)..])
            .Where(c => c.Length == 3 && char.IsDigit(c[0][0]))
            .Select(c => (c[0], c[2], StatusOf(c[2]))),
    ];

    /// <summary>By source: rules, advice, explanations and answers that refer to it.</summary>
    public ImmutableArray<(Triage.Rules.Source Source, ImmutableArray<string> UsedBy)> Sources =>
        [.. edition.Sources.Select(s => (s, UsedBy($"[{s.Id}]", s.Id)))];

    public string Write()
    {
        var text = new StringBuilder("# What rests on which source\n\n| recommendation of NG98 | rules or reason | status |\n|---|---|---|\n");
        foreach (var (recommendation, rules, status) in Recommendations)
            text.Append($"| {recommendation} | {rules} | {status} |\n");
        text.Append("\n| source | title | how sure | rules, advice, explanations, answers | status |\n|---|---|---|---|---|\n");
        foreach (var (source, usedBy) in Sources)
            text.Append($"| {source.Id} | {source.Organisation}: {source.Title} | {source.HowSure} | {string.Join(", ", usedBy)} | {(usedBy.IsEmpty ? "open" : "used")} |\n");
        text.Append("\n| value | source | how sure | stands in | held by | status |\n|---|---|---|---|---|---|\n");
        foreach (var value in CheckValue.All.Values)
            text.Append($"| {value.Id}: {value.Says} | {value.Source} | {value.HowSure} | {value.StandsIn} | {value.BoundBy} | {(value.IsStated ? "stated" : value.Words)} |\n");
        return text.ToString();
    }

    ImmutableArray<string> UsedBy(params string[] names)
    {
        bool Refers(IEnumerable<string> sources) => sources.Any(names.Contains);
        var dialog = edition.Dialog;
        return
        [
            .. dialog.Rules.Where(r => Refers(r.Sources)).Select(r => r.Id)
                .Concat(dialog.TreatRules.Where(r => Refers(r.Sources)).Select(r => r.Id))
                .Concat(dialog.NamedFacts.Where(f => f.Rows.Any(r => Refers(r.Sources))).Select(f => f.Id))
                .Concat(dialog.Advice.Where(a => Refers(a.Sources)).Select(a => a.Id))
                .Concat(dialog.Explanations.Where(e => Refers(e.Sources)).Select(e => e.Id))
                .Concat(dialog.DropsPlans.Where(p => Refers(p.Sources)).Select(p => "plan of " + dialog.Advice[p.Advice].Id))
                .Concat(edition.Wordings["en"].Answers.Values.Where(a => Refers(a.Review.Sources)).Select(a => a.Id).Order(StringComparer.Ordinal))
                .Concat(edition.EmergencyNumbers.Countries.Where(c => names.Any(n => c.Source.Contains(n, StringComparison.Ordinal))).Select(c => c.Country)),
        ];
    }

    /// <summary>"held" if it names rules or advice of the edition, "left out, with a reason" if it says none.</summary>
    string StatusOf(string rules)
    {
        if (rules.StartsWith("none: ", StringComparison.Ordinal))
            return "left out, with a reason";
        var dialog = edition.Dialog;
        var ids = RuleId().Matches(rules).Select(m => m.Value).ToList();
        var known = dialog.Rules.SelectMany(r => new[] { r.Id, r.Owner }).Concat(dialog.TreatRules.Select(r => r.Id)).ToHashSet(StringComparer.Ordinal);
        return ids.Exists(i => !known.Contains(i)) || (ids.Count == 0 && !dialog.Advice.Any(a => rules.Contains(a.Id, StringComparison.Ordinal))) ? "open" : "held";
    }

    [GeneratedRegex(@"\b(?:RF|AW|MOD)-\d+(?:\.\d+)?\b|\bTREAT\b")]
    private static partial Regex RuleId();
}
