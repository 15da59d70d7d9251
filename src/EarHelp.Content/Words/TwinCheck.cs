using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Wherever a telephone number stands, a way without hearing stands beside it, in the same section.</summary>
static partial class TwinCheck
{
    static readonly (string Blank, string[] Twins)[] Twins =
    [
        ("clinic phone", ["clinic text", "clinic email", "clinic relay"]),
        ("emergency number", ["emergency without hearing"]),
        ("crisis line", ["crisis without hearing"]),
    ];

    public static void Report(IEnumerable<Prose> section, SourceSpot spot, ProblemList problems)
    {
        var inlines = section.SelectMany(p => p.Blocks).SelectMany(Inlines).ToList();
        var blanks = inlines.OfType<Inline.Blank>().Select(b => b.Name).ToHashSet(StringComparer.Ordinal);
        Report(blanks, spot, problems);
        var links = inlines.OfType<Inline.Link>().Select(l => l.Address).ToList();
        var words = string.Concat(inlines.OfType<Inline.Run>().Select(r => r.Text));
        var hasNumber = links.Exists(l => l.StartsWith("tel:", StringComparison.OrdinalIgnoreCase)) || PhoneNumber().IsMatch(words);
        var hasWay = links.Exists(l => l.StartsWith("sms:", StringComparison.OrdinalIgnoreCase) || l.StartsWith("mailto:", StringComparison.OrdinalIgnoreCase))
            || EmailAddress().IsMatch(words) || Twins.Any(t => t.Twins.Any(blanks.Contains));
        if (hasNumber && !hasWay)
            problems.Add(Codes.PhoneWithoutTwin, spot, "A telephone number stands here without a way that needs no hearing.", "Add a link that begins with sms: or mailto:, an e-mail address, or one of {clinic text}, {clinic email}, {clinic relay}.");
    }

    /// <summary>The blanks of short texts, all of one table.</summary>
    public static void Report(ISet<string> blanks, SourceSpot spot, ProblemList problems)
    {
        foreach (var (blank, twins) in Twins)
        {
            if (blanks.Contains(blank) && !twins.Any(blanks.Contains))
                problems.Add(Codes.PhoneWithoutTwin, spot, $"{{{blank}}} stands here without a way that needs no hearing.", $"Add {string.Join(" or ", twins.Select(t => $"{{{t}}}"))} to the same section.");
        }
    }

    static IEnumerable<Inline> Inlines(Block block) => block.Lines.SelectMany(l => l);

    [GeneratedRegex(@"(?<![\d-])\+?\d(?:[ ()/-]?\d){6,}(?![\d-])", RegexOptions.CultureInvariant)]
    private static partial Regex PhoneNumber();

    [GeneratedRegex(@"\S@\S+\.\S", RegexOptions.CultureInvariant)]
    private static partial Regex EmailAddress();
}
