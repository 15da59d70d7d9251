namespace EarHelp.Understanding.Words;

/// <summary>One word or figure of a text, folded for comparing.</summary>
/// <param name="Text">Folded; apostrophes are left out.</param>
/// <param name="Span">Where it stands in the person's own text.</param>
/// <param name="BeginsClause">True if a full stop, a comma or the like stands before it.</param>
public readonly record struct Word(string Text, TextSpan Span, bool BeginsClause);

/// <summary>A stretch of the person's own text.</summary>
public readonly record struct TextSpan(int Start, int Length)
{
    public int End => Start + Length;

    public static TextSpan Cover(TextSpan first, TextSpan last) => new(first.Start, last.End - first.Start);
}
