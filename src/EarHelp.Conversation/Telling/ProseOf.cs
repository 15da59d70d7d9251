using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Makes texts of smaller ones.</summary>
static class ProseOf
{
    public static Prose Line(string text) => new([new Block.Paragraph([new Inline.Run(text, IsStrong: false, IsEmphasised: false)])], default);

    /// <summary>A short text whose blanks are still to be filled.</summary>
    public static Prose LineWithBlanks(string template)
    {
        var inlines = ImmutableArray.CreateBuilder<Inline>();
        var at = 0;
        while (template.IndexOf('{', at) is var opens and >= 0 && template.IndexOf('}', opens) is var closes and >= 0)
        {
            inlines.Add(Plain(template[at..opens]));
            inlines.Add(Blank(template[(opens + 1)..closes]));
            at = closes + 1;
        }

        inlines.Add(Plain(template[at..]));
        return new Prose([new Block.Paragraph(inlines.ToImmutable())], default);
    }

    public static Prose Heading(string text) => new([new Block.Heading(4, [new Inline.Run(text, IsStrong: false, IsEmphasised: false)])], default);

    public static Prose List(IEnumerable<ImmutableArray<Inline>> entries)
    {
        ImmutableArray<ImmutableArray<Inline>> all = [.. entries];
        return all.IsEmpty ? Prose.Empty : new Prose([new Block.Items(all, IsNumbered: false)], default);
    }

    public static Prose Together(params ReadOnlySpan<Prose> texts)
    {
        var blocks = ImmutableArray.CreateBuilder<Block>();
        foreach (var text in texts)
        {
            if (!text.IsEmpty)
                blocks.AddRange(text.Blocks);
        }

        return new Prose(blocks.ToImmutable(), default);
    }

    /// <summary>All inlines of a text in one line.</summary>
    public static ImmutableArray<Inline> Inlines(Prose text)
    {
        if (text.IsEmpty)
            return [];
        var inlines = ImmutableArray.CreateBuilder<Inline>();
        foreach (var block in text.Blocks)
        {
            if (inlines.Count > 0)
                inlines.Add(new Inline.Run(" ", IsStrong: false, IsEmphasised: false));
            inlines.AddRange(block switch
            {
                Block.Paragraph p => p.Inlines,
                Block.Heading h => h.Inlines,
                Block.Items items => [.. items.Entries.SelectMany(e => e)],
                Block.Picture picture => picture.Words,
                _ => throw new System.Diagnostics.UnreachableException(),
            });
        }

        return inlines.ToImmutable();
    }

    static Inline Blank(string inside) => inside.IndexOf('|', StringComparison.Ordinal) is var bar and >= 0
        ? new Inline.Either(inside[..bar], inside[(bar + 1)..], IsStrong: false)
        : new Inline.Blank(inside, IsStrong: false);

    public static Inline Plain(string text) => new Inline.Run(text, IsStrong: false, IsEmphasised: false);

    public static Inline Strong(string text) => new Inline.Run(text, IsStrong: true, IsEmphasised: false);
}
