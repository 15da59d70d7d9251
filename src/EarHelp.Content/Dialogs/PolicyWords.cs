using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Tables;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the hit policy in the heading above a decision table: its letter, and the words beside it.</summary>
static partial class PolicyWords
{
    // Words of which one must stand beside the letter.
    static readonly (HitPolicy Policy, string[] Words)[] Marks =
    [
        (HitPolicy.Unique, ["unique", "at most one", "only one", "exactly one"]),
        (HitPolicy.Any, ["any", "agree"]),
        (HitPolicy.Priority, ["priority", "most urgent", "most important", "order of the conclusion"]),
        (HitPolicy.First, ["first"]),
        (HitPolicy.RuleOrder, ["rule order", "order of the table", "order of the rows", "order of the rules"]),
        (HitPolicy.OutputOrder, ["output order", "order of the conclusion", "order of the output"]),
        (HitPolicy.Collect, ["collect", "all"]),
        (HitPolicy.Sum, ["sum", "total", "added"]),
        (HitPolicy.Least, ["least", "smallest", "lowest", "minimum"]),
        (HitPolicy.Greatest, ["greatest", "largest", "highest", "maximum"]),
        (HitPolicy.Count, ["count", "how many", "number of"]),
    ];

    public static string NameOf(string heading)
    {
        var bracket = Policy().Match(heading) is { Success: true } match ? heading.LastIndexOf('(', match.Index) : -1;
        return (bracket >= 0 ? heading[..bracket] : heading).Trim();
    }

    /// <summary>Null after a fault.</summary>
    /// <param name="needsWords">False where the letter alone is enough.</param>
    public static HitPolicy? Read(PageTable table, ProblemList problems, bool needsWords = true)
    {
        var heading = table.Above.Replace("\\", "", StringComparison.Ordinal);
        var match = Policy().Match(heading);
        var spot = table.Above.Length == 0 ? table.Spot : table.AboveSpot;
        if (!match.Success)
        {
            problems.Add(Codes.MissingPolicy, spot, "The heading above the decision table does not state its hit policy.", "Write it in brackets: ## Name (policy P: the most urgent row decides)");
            return null;
        }

        if (HitPolicy.Of(match.Groups["letter"].Value) is not { } policy)
        {
            problems.Add(Codes.UnknownPolicy, spot, $"\"{match.Groups["letter"].Value}\" is not a hit policy.", $"The letters are: {string.Join(", ", HitPolicy.All.Select(p => $"{p.Letter} ({p.Name})"))}.");
            return null;
        }

        if (needsWords)
            ReportWords(policy, match.Groups["words"].Value, spot, problems);
        return policy;
    }

    static void ReportWords(HitPolicy policy, string words, SourceSpot spot, ProblemList problems)
    {
        if (Marks.First(m => m.Policy == policy).Words.Any(w => words.Contains(w, StringComparison.OrdinalIgnoreCase)))
            return;
        problems.Add(Codes.PolicyDisagrees, spot,
            words.Length == 0 ? $"The hit policy {policy.Letter} is not said in words." : $"The hit policy is {policy.Letter} ({policy.Name}), and the words beside it say something else: \"{words}\".",
            $"Write (policy {policy.Letter}: {policy.Means}), or another letter.");
    }

    [GeneratedRegex(@"\bpolicy:?\s*(?<letter>[A-Za-z][+<>#]?)(?=[\s:;,.)]|$)\s*[:;,.]?\s*(?<words>[^)]*)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Policy();
}
