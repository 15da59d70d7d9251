using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Makes texts of smaller ones.</summary>
static class ProseOf
{
    public static Prose Line(string text) => new([new Block.Paragraph([new Inline.Run(text, IsStrong: false, IsEmphasised: false)])], default);

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
                _ => throw new System.Diagnostics.UnreachableException(),
            });
        }

        return inlines.ToImmutable();
    }

    public static Inline Plain(string text) => new Inline.Run(text, IsStrong: false, IsEmphasised: false);

    public static Inline Strong(string text) => new Inline.Run(text, IsStrong: true, IsEmphasised: false);
}
