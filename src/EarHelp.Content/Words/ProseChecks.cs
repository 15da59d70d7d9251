using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Checks what the words say: no advice outside advice items, no telephone number without a way for those who cannot hear.</summary>
static partial class ProseChecks
{
    /// <param name="adviceWords">Agents, doses and instructions that belong into advice items only; whole words, lower case.</param>
    public static void Check(Wording wording, ImmutableArray<string> adviceWords, ProblemList problems)
    {
        var prose = wording.Warnings.Values
            .Concat(wording.Explanations.Values)
            .Concat(wording.Reasons.Values)
            .Concat(wording.Outcomes.Values.SelectMany(o => new[] { o.Headline, o.Meaning, o.MoreUrgent, o.IfNobodyAnswered, o.WhoDecides }));
        foreach (var text in prose)
        {
            var plain = PlainOf(text);
            foreach (var word in adviceWords.Where(w => HasWord(plain, w)))
                problems.Add(Codes.AdviceInProse, text.Spot, $"\"{word}\" is advice, and this text only explains.", "Move it to an advice item, with its \"only if\" and \"never if\".");
        }

        var all = prose.Concat(wording.Advice.Values).Concat(wording.Destinations.Values).Concat(wording.Pages.Values).Concat(wording.Signposts.Select(s => s.Text));
        foreach (var text in all.Where(t => HasPhone(t) && !HasTwin(t)))
            problems.Add(Codes.PhoneWithoutTwin, text.Spot, "A telephone number stands without a way for those who cannot hear.", "Add a text number, an e-mail address or the relay service beside it.");
    }

    static bool HasWord(string text, string word)
    {
        for (var at = text.IndexOf(word, StringComparison.OrdinalIgnoreCase); at >= 0; at = text.IndexOf(word, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            var end = at + word.Length;
            if ((at == 0 || !char.IsLetterOrDigit(text[at - 1])) && (end == text.Length || !char.IsLetterOrDigit(text[end])))
                return true;
        }

        return false;
    }

    static bool HasPhone(Prose text) =>
        InlinesOf(text).Any(i => i is Inline.Blank { Name: "clinic phone" or "emergency number" or "crisis line" }
            || (i is Inline.Link link && link.Address.StartsWith("tel:", StringComparison.Ordinal)))
        || PhoneNumber().IsMatch(PlainOf(text));

    static bool HasTwin(Prose text) =>
        InlinesOf(text).Any(i => i is Inline.Blank { Name: "clinic text" or "clinic email" or "clinic relay" or "emergency without hearing" or "crisis without hearing" }
            || (i is Inline.Link link && (link.Address.StartsWith("sms:", StringComparison.Ordinal) || link.Address.StartsWith("mailto:", StringComparison.Ordinal))));

    static string PlainOf(Prose text) => string.Concat(InlinesOf(text).Select(i => i switch
    {
        Inline.Run run => run.Text,
        Inline.Link link => link.Text,
        Inline.Either either => $"{either.Self} {either.Other}",
        _ => " ",
    }));

    static IEnumerable<Inline> InlinesOf(Prose text) => text.Blocks.SelectMany(b => b switch
    {
        Block.Paragraph paragraph => paragraph.Inlines,
        Block.Heading heading => heading.Inlines,
        Block.Items items => items.Entries.SelectMany(e => e),
        _ => throw new System.Diagnostics.UnreachableException(),
    });

    [GeneratedRegex(@"\d[\d ]{6,}\d", RegexOptions.CultureInvariant | RegexOptions.NonBacktracking)]
    private static partial Regex PhoneNumber();
}
