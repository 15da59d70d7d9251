using System.Collections.Immutable;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Triage.Assessments;

/// <summary>The rows that match for certain; if none of them gives the level, also those that may match and give it.</summary>
static class MatchedRules
{
    /// <returns>The most urgent first, then in reading order.</returns>
    public static ImmutableArray<MatchedRule> Of(Dialog dialog, List<EarResult> ears, int? level)
    {
        var matched = new List<MatchedRule>();
        var decides = Add(matched, dialog, ears, level, Certainty.Certain);
        if (level is not null && !decides)
            Add(matched, dialog, ears, level, Certainty.Possible);
        Sort(matched, dialog);
        return [.. matched];
    }

    /// <returns>True if one of the added rows gives the level.</returns>
    static bool Add(List<MatchedRule> matched, Dialog dialog, List<EarResult> ears, int? level, Certainty certainty)
    {
        var decidesAny = false;
        var onlyDeciding = certainty != Certainty.Certain;
        for (var rule = 0; rule < dialog.Rules.Length; rule++)
        {
            foreach (var ear in ears)
            {
                if (ear.Rules[rule] != certainty)
                    continue;
                var decides = level is not null && dialog.Rules[rule].Level == level;
                decidesAny |= decides;
                if (decides || !onlyDeciding)
                    matched.Add(new MatchedRule(rule, ear.Ear, decides));
            }
        }

        return decidesAny;
    }

    /// <summary>Few match, so that putting each in its place is the shortest way; rows that stand alike keep their order.</summary>
    static void Sort(List<MatchedRule> matched, Dialog dialog)
    {
        for (var i = 1; i < matched.Count; i++)
        {
            var one = matched[i];
            var at = i;
            for (; at > 0 && Place(matched[at - 1]).CompareTo(Place(one)) > 0; at--)
                matched[at] = matched[at - 1];
            matched[at] = one;
        }

        (int Level, int Rule) Place(MatchedRule rule) => (dialog.Rules[rule.Rule].Level ?? int.MaxValue, rule.Rule);
    }
}
