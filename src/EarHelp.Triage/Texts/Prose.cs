using System.Collections.Immutable;

namespace EarHelp.Triage.Texts;

/// <summary>A text an author wrote, free of any markup language: every face renders it in its own way.</summary>
public sealed record Prose(ImmutableArray<Block> Blocks, SourceSpot Spot)
{
    public static Prose Empty { get; } = new([], default);

    public bool IsEmpty => Blocks.IsDefaultOrEmpty;
}

/// <summary>One block of a text.</summary>
public abstract record Block
{
    Block()
    {
    }

    /// <summary>What is read in it, line by line; of a picture, the words that say the same.</summary>
    public abstract ImmutableArray<ImmutableArray<Inline>> Lines { get; }

    public sealed record Paragraph(ImmutableArray<Inline> Inlines) : Block
    {
        public override ImmutableArray<ImmutableArray<Inline>> Lines => [Inlines];
    }

    public sealed record Heading(int Level, ImmutableArray<Inline> Inlines) : Block
    {
        public override ImmutableArray<ImmutableArray<Inline>> Lines => [Inlines];
    }

    /// <param name="IsNumbered">True for steps that have an order.</param>
    public sealed record Items(ImmutableArray<ImmutableArray<Inline>> Entries, bool IsNumbered) : Block
    {
        public override ImmutableArray<ImmutableArray<Inline>> Lines => Entries;
    }

    /// <param name="Name">One of <see cref="Editions.Pictures"/>.</param>
    /// <param name="Words">Says the same in words.</param>
    public sealed record Picture(string Name, ImmutableArray<Inline> Words) : Block
    {
        public override ImmutableArray<ImmutableArray<Inline>> Lines => [Words];
    }
}

/// <summary>A piece of a line.</summary>
public abstract record Inline
{
    Inline()
    {
    }

    public sealed record Run(string Text, bool IsStrong, bool IsEmphasised) : Inline;

    /// <param name="Address">An https, tel, sms or mailto address; it may hold blanks in braces.</param>
    public sealed record Link(string Text, string Address) : Inline;

    /// <summary>A blank that is filled in when the text is shown: <c>{seen by}</c>.</summary>
    public sealed record Blank(string Name, bool IsStrong) : Inline;

    /// <summary><c>{you|they}</c>: the first when a person writes about themselves, the second about someone else.</summary>
    public sealed record Either(string Self, string Other, bool IsStrong) : Inline;
}
