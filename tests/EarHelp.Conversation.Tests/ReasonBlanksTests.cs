using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Tests;

/// <summary>A reason may say only what its own row knows: else it tells a person something that nobody asked, or leaves a gap.</summary>
public sealed class ReasonBlanksTests
{
    static readonly HashSet<string> OfTheProgram = new(StringComparer.Ordinal)
    {
        "the ear", "clinic", "clinic phone", "clinic text", "clinic email", "clinic relay", "emergency number", "emergency without hearing",
    };

    [Fact]
    public void Every_blank_of_a_reason_is_a_condition_of_each_row_that_uses_it()
    {
        var dialog = OneConversation.Edition.Dialog;
        var gaps = new List<string>();
        foreach (var wording in OneConversation.Edition.Edition.Wordings.Values)
        {
            foreach (var rule in dialog.Rules.Where(r => r.Level is not null))
            {
                var reason = wording.Reasons.GetValueOrDefault(rule.Id) ?? wording.Reasons[rule.Owner];
                var known = NamesOf(rule.Conditions).ToHashSet(StringComparer.Ordinal);
                gaps.AddRange(BlanksOf(reason).Where(b => !OfTheProgram.Contains(b) && !known.Contains(b)).Select(b => $"{rule.Id}: {{{b}}}"));
            }
        }

        Assert.Empty(gaps);
    }

    static IEnumerable<string> NamesOf(IEnumerable<Condition> conditions)
    {
        var dialog = OneConversation.Edition.Dialog;
        foreach (var condition in conditions)
        {
            if (!condition.Of.IsNamedFact)
            {
                var fact = dialog.Facts[condition.Of.Index];
                yield return fact.Id;
                yield return fact.DecidingId;
                continue;
            }

            var named = dialog.NamedFacts[condition.Of.Index];
            yield return named.Id;
            foreach (var name in NamesOf(named.Rows.SelectMany(r => r.Conditions)))
                yield return name;
        }
    }

    static IEnumerable<string> BlanksOf(Prose text) => text.Blocks
        .SelectMany(b => b switch
        {
            Block.Paragraph paragraph => paragraph.Inlines,
            Block.Heading heading => heading.Inlines,
            Block.Items items => items.Entries.SelectMany(e => e),
            Block.Picture picture => picture.Words,
            _ => throw new System.Diagnostics.UnreachableException(),
        })
        .OfType<Inline.Blank>()
        .Select(b => b.Name);
}
