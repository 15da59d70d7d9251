using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Comparing;

/// <summary>What a row says, as a text that is the same for two editions if, and only if, the rows say the same.</summary>
sealed class RowText(Dialog dialog)
{
    public string Of(Rule rule) => Join(
        All(rule.Conditions), rule.Level is { } level ? dialog.Levels[level].Id : "-", Join([.. rule.Where.Select(d => dialog.Destinations[d].Id)]), Join([.. rule.Warn]),
        Join([.. rule.Give.Select(a => dialog.Advice[a].Id)]), Join([.. rule.Withhold.Select(a => dialog.Advice[a].Id)]),
        rule.CountsFrom is { } fact ? dialog.Facts[fact].Id : "-", rule.Because, Join([.. rule.Sources]), rule.Sure);

    public string Of(TreatRule rule) => Join(All(rule.Conditions), rule.Hold ?? "yes", rule.Because, Join([.. rule.Sources]));

    public string Of(NamedFact named) => Join(
        Join([.. named.Values.Names]), Join([.. named.Rows.Select(r => Join(All(r.Conditions), named.Values.NameOf(r.Value), Join([.. r.Sources])))]), $"{named.Otherwise}", named.Policy.Letter);

    public string Of(Fact fact) => Join(
        fact.Id, fact.About.ToString(), fact.Values is FactValues.Named named ? Join([.. named.Names]) : fact.Values.ToString(), fact.Counted?.ToString() ?? "-", fact.AskIn.ToString(),
        fact.Worse.ToString(), fact.Clear is { } clear ? fact.Values.NameOf(clear) : "-", fact.RedFlag.ToString(), All(fact.AppliesWhen));

    public string Of(AdviceItem item) => Join(
        item.Kind.ToString(), item.About.ToString(), All(item.OnlyIf), All(item.NeverIf), item.NotWhile is { } rank ? dialog.Levels[rank].Id : "-", Join([.. item.Sources]));

    public string Of(Explanation explanation) => Join(All(explanation.OnlyIf), Join([.. explanation.Sources]));

    public static string Of(DropsPlan plan) => Join($"{plan.EachTime}", $"{plan.TimesADay}", $"{plan.Days}", $"{plan.InMillilitre}", $"{plan.BottleMillilitres}", Join([.. plan.Sources]));

    public string Of(VisitFinding finding) => Join(
        finding.About.ToString(), finding.Kind.ToString(), Join([.. finding.Sets.Select(s => Join(dialog.Facts[s.Fact].Id, dialog.Facts[s.Fact].Values.NameOf(s.Value), $"{s.Days}"))]), Join([.. finding.Sources]));

    public string Of(AftercareStep step) => Join($"{step.Days}", FindingsOf(step.OnlyIf), FindingsOf(step.NeverIf), Join([.. step.Sources]));

    public string Of(Destination destination) => Join(destination.Hours.ToString(), destination.ReachedWhen is { } reached ? Of(reached) : "-");

    public static string Of(Level level) => level.Iso ?? "-";

    public string Of(Triage.Asking.Screen screen) => Join(Join([.. screen.Facts.Select(f => dialog.Facts[f].DecidingId)]), screen.AskIn.ToString(), screen.About.ToString());

    public string Of(ImpossiblePair pair) => $"{Of(pair.One)} with {Of(pair.Other)}";

    string FindingsOf(ImmutableArray<int> findings) => Join([.. findings.Select(f => dialog.Findings[f].Id).Order(StringComparer.Ordinal)]);

    string All(ImmutableArray<Condition> conditions) => Join([.. conditions.Select(Of)]);

    string Of(Condition condition)
    {
        var (name, values) = condition.Of.IsNamedFact
            ? (dialog.NamedFacts[condition.Of.Index].Id, dialog.NamedFacts[condition.Of.Index].Values)
            : (dialog.Facts[condition.Of.Index].DecidingId, dialog.Facts[condition.Of.Index].Values);
        var told = values is FactValues.Named named
            ? Join([.. Enumerable.Range(0, named.Count).Where(condition.Values.Contains).Select(named.NameOf).Order(StringComparer.Ordinal)])
            : string.Join(',', condition.Values.Ranges.Select(r => $"{values.NameOf(r.First)}..{values.NameOf(r.Last)}"));
        return $"{name}: {told}";
    }

    static string Join(params ReadOnlySpan<string> parts) => $"[{string.Join('|', parts)}]";
}
