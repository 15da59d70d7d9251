using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using RulesEngine.Models;
using Rule = RulesEngine.Models.Rule;

namespace Benchmarks.Rules;

/// <summary>The same decision on how urgent it is, given to a general rule engine as lambda expressions.</summary>
sealed class GeneralRuleEngine
{
    const string Workflow = "ear";

    readonly RulesEngine.RulesEngine _engine;
    readonly Dialog _dialog;
    readonly Dictionary<string, int> _levels;

    /// <summary>For whom no other row foresees anything.</summary>
    readonly int _otherwise;

    public GeneralRuleEngine(Dialog dialog)
    {
        _dialog = dialog;
        _levels = dialog.Rules.Where(r => r.Level is not null).ToDictionary(r => r.Id, r => r.Level!.Value);
        _otherwise = dialog.Rules.Where(r => r.IsOtherwise).Min(r => r.Level) ?? 0;
        var rules = dialog.Rules.Where(r => r.Level is not null && !r.IsOtherwise).Select(r => new Rule { RuleName = r.Id, Expression = All(r.Conditions) });
        _engine = new RulesEngine.RulesEngine([new Workflow { WorkflowName = Workflow, Rules = [.. rules] }]);
    }

    public async ValueTask<int> LevelOfAsync(Known known)
    {
        var results = await _engine.ExecuteAllRulesAsync(Workflow, new RuleParameter("p", known));
        return results.Where(r => r.IsSuccess).Select(r => _levels[r.Rule.RuleName]).DefaultIfEmpty(_otherwise).Min();
    }

    string All(IEnumerable<Condition> conditions) =>
        conditions.Select(Of).DefaultIfEmpty("true").Aggregate((one, other) => $"{one} && {other}");

    string Of(Condition condition)
    {
        if (!condition.Of.IsNamedFact)
            return Ranges(condition);
        var named = _dialog.NamedFacts[condition.Of.Index];
        var text = named.Otherwise is { } otherwise && condition.Values.Contains(otherwise) ? "true" : "false";
        foreach (var row in named.Rows.Reverse())
            text = $"({All(row.Conditions)} ? {(condition.Values.Contains(row.Value) ? "true" : "false")} : {text})";
        return text;
    }

    static string Ranges(Condition condition)
    {
        var fact = $"p.Values[{condition.Of.Index}]";
        var ranges = condition.Values.Ranges.Select(r => r.First == r.Last ? $"{fact} == {r.First}" : $"({fact} >= {r.First} && {fact} <= {r.Last})");
        return $"({string.Join(" || ", ranges)})";
    }
}

/// <param name="Values">By fact; -1: it does not apply.</param>
public sealed record Known(int[] Values);
