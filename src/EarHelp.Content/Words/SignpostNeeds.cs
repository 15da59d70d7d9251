using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>A sign that alone makes it as urgent as can be has a signpost, so that whoever writes of it reads what to do at once.</summary>
sealed class SignpostNeeds(Dialog dialog, ProblemList problems)
{
    public void Report(string language, ImmutableArray<Signpost> signposts, SourceSpot spot)
    {
        var claimed = signposts.SelectMany(s => s.Claims).Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index).ToHashSet();
        foreach (var fact in Alone().Where(f => !claimed.Contains(f.Index)))
        {
            problems.Add(Codes.MissingWords, spot, $"\"{fact.Id}\" alone is \"{dialog.Levels[0].Id}\", and no signpost in \"{language}\" claims it.",
                $"Add a signpost with \"**Fact:** {fact.Id}: yes\". The fact stands at {fact.Spot}.");
        }
    }

    /// <summary>Yes/no facts whose <c>yes</c> leads to the most urgent level, whatever else is answered.</summary>
    IEnumerable<Fact> Alone() => dialog.Rules
        .Where(r => r is { Level: 0, Conditions.Length: 1 }).SelectMany(r => AloneIn(r.Conditions[0])).Distinct().OrderBy(f => f.Index);

    IEnumerable<Fact> AloneIn(Condition condition)
    {
        if (!condition.Of.IsNamedFact)
        {
            var fact = dialog.Facts[condition.Of.Index];
            return fact is { RedFlag: RedFlag.Marked, Values: FactValues.Named { IsYesNo: true } } && condition.Values.Contains(fact.Values.IndexOf("yes")!.Value) ? [fact] : [];
        }

        var named = dialog.NamedFacts[condition.Of.Index];
        return named.Rows.Where(r => r.Conditions.Length == 1 && condition.Values.Contains(r.Value)).SelectMany(r => AloneIn(r.Conditions[0]));
    }
}
