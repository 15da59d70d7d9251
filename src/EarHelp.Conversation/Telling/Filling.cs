using System.Collections.Immutable;
using System.Text;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Fills the blanks of authored texts and chooses between <c>{you|they}</c>.</summary>
/// <param name="isSelf">True if the person writes about themselves.</param>
/// <param name="valueOf">A blank's value by its name; null: there is none, and the blank stays empty.</param>
sealed class Filling(bool isSelf, Func<string, string?> valueOf)
{
    /// <summary>A short text with blanks in braces.</summary>
    public string Fill(string template)
    {
        if (!template.Contains('{', StringComparison.Ordinal))
            return template;
        var text = new StringBuilder(template.Length + 32);
        var at = 0;
        while (at < template.Length)
        {
            var opens = template.IndexOf('{', at);
            var closes = opens < 0 ? -1 : template.IndexOf('}', opens);
            if (closes < 0)
                break;
            text.Append(template, at, opens - at).Append(FillBlank(template[(opens + 1)..closes]));
            at = closes + 1;
        }

        return text.Append(template, at, template.Length - at).ToString();
    }

    /// <summary>The text itself if it has nothing to fill.</summary>
    public Prose Fill(Prose prose)
    {
        if (prose.IsEmpty || !HasBlanks(prose))
            return prose;
        var blocks = ImmutableArray.CreateBuilder<Block>(prose.Blocks.Length);
        foreach (var block in prose.Blocks)
        {
            blocks.Add(block switch
            {
                Block.Paragraph p => new Block.Paragraph(FillAll(p.Inlines)),
                Block.Heading h => h with { Inlines = FillAll(h.Inlines) },
                Block.Items items => items with { Entries = [.. items.Entries.Select(FillAll)] },
                Block.Picture picture => picture with { Words = FillAll(picture.Words) },
                _ => throw new System.Diagnostics.UnreachableException(),
            });
        }

        return new Prose(blocks.MoveToImmutable(), prose.Spot);
    }

    string FillBlank(string inside)
    {
        var bar = inside.IndexOf('|', StringComparison.Ordinal);
        if (bar < 0)
            return valueOf(inside) ?? string.Empty;
        return isSelf ? inside[..bar] : inside[(bar + 1)..];
    }

    ImmutableArray<Inline> FillAll(ImmutableArray<Inline> inlines)
    {
        var filled = ImmutableArray.CreateBuilder<Inline>(inlines.Length);
        foreach (var inline in inlines)
        {
            filled.Add(inline switch
            {
                Inline.Blank blank => ReachLinks.Of(blank.Name, valueOf(blank.Name) ?? string.Empty, blank.IsStrong),
                Inline.Either either => new Inline.Run(isSelf ? either.Self : either.Other, either.IsStrong, IsEmphasised: false),
                Inline.Link link => new Inline.Link(Fill(link.Text), Fill(link.Address)),
                _ => inline,
            });
        }

        return filled.MoveToImmutable();
    }

    static bool HasBlanks(Prose prose)
    {
        foreach (var block in prose.Blocks)
        {
            var has = block switch
            {
                Block.Paragraph p => HasBlanks(p.Inlines),
                Block.Heading h => HasBlanks(h.Inlines),
                Block.Items items => items.Entries.Any(HasBlanks),
                Block.Picture picture => HasBlanks(picture.Words),
                _ => false,
            };
            if (has)
                return true;
        }

        return false;
    }

    static bool HasBlanks(ImmutableArray<Inline> inlines)
    {
        foreach (var inline in inlines)
        {
            if (inline is Inline.Blank or Inline.Either)
                return true;
            if (inline is Inline.Link link && (link.Address.Contains('{', StringComparison.Ordinal) || link.Text.Contains('{', StringComparison.Ordinal)))
                return true;
        }

        return false;
    }
}
