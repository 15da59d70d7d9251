using System.Collections.Immutable;
using System.Text;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Patients;

namespace EarHelp.Proof.Telling;

/// <summary>A comparison for a terminal: plain, sorted and stable, so that two of them can be compared line by line.</summary>
public static class ComparisonText
{
    public static string Write(EditionComparison comparison, ImmutableArray<ChangedExample> examples = default)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        var text = new StringBuilder();
        text.AppendLine($"{Short(comparison.Before)} -> {Short(comparison.After)}").AppendLine(ChangeWords.Summary(comparison));
        AddFacts(text, "Only the old edition asks, which counts as irrelevant to the new one", comparison.OnlyBefore);
        AddFacts(text, "Only the new edition asks, which counts as irrelevant to the old one", comparison.OnlyAfter);
        foreach (var group in comparison.Changes.GroupBy(c => c.Kind))
        {
            text.AppendLine().AppendLine(ChangeWords.Heading(group.Key));
            foreach (var change in group)
                Add(text, change);
        }

        if (!comparison.Edits.IsEmpty)
        {
            text.AppendLine().AppendLine("Rows that are not as they were");
            foreach (var edit in comparison.Edits)
                text.AppendLine($"  {edit}");
        }

        if (!examples.IsDefaultOrEmpty)
        {
            text.AppendLine().AppendLine("Example patients who are told something else");
            foreach (var example in examples)
                text.AppendLine($"  {example}");
        }

        AddTexts(text, comparison);
        return text.ToString();
    }

    static void Add(StringBuilder text, Change change)
    {
        text.AppendLine($"  {(change.Id is null ? "" : $"[{change.Id}] ")}{change.Title}: {Amount.InWords(change.Patients)} patients");
        text.AppendLine($"    for example: {change.Shown.InWords}");
        text.AppendLine($"    before: {change.ToldBefore}");
        text.AppendLine($"    after:  {change.ToldAfter}");
        foreach (var cause in change.Causes)
            text.AppendLine($"    by {cause}");
    }

    static void AddTexts(StringBuilder text, EditionComparison comparison)
    {
        if (comparison.Texts.IsEmpty)
            return;
        text.AppendLine().AppendLine("Texts: [- gone -] {+ new +}");
        foreach (var change in comparison.Texts)
            text.AppendLine($"  {change.Language}, {change.Name}").AppendLine($"    {string.Join(' ', change.Pieces.Select(Told))}");
    }

    static string Told(TextPiece piece) => piece.Fate switch
    {
        TextFate.Stayed => piece.Words,
        TextFate.Went => $"[-{piece.Words}-]",
        TextFate.Came => $"{{+{piece.Words}+}}",
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    static void AddFacts(StringBuilder text, string heading, IReadOnlyCollection<string> facts)
    {
        if (facts.Count > 0)
            text.AppendLine($"{heading}: {string.Join(", ", facts)}.");
    }

    internal static string Short(string edition) => edition.Length > 12 ? edition[..12] : edition;
}
