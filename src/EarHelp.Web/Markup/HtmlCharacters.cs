using System.Buffers;

namespace EarHelp.Web.Markup;

/// <summary>Which letters may stand in HTML as they are.</summary>
static class HtmlCharacters
{
    /// <summary>All letters but those with a meaning in HTML, control characters and halves of surrogate pairs.</summary>
    internal static SearchValues<char> Plain { get; } = SearchValues.Create(
    [
        .. Enumerable.Range(0, char.MaxValue + 1)
            .Select(code => (char)code)
            .Where(c => Encode(c).IsEmpty && !char.IsSurrogate(c) && (!char.IsControl(c) || c is '\t' or '\n')),
    ]);

    internal static ReadOnlySpan<byte> Encode(char letter) => letter switch
    {
        '<' => "&lt;"u8,
        '>' => "&gt;"u8,
        '&' => "&amp;"u8,
        '"' => "&quot;"u8,
        '\'' => "&#39;"u8,
        '`' => "&#96;"u8,
        _ => default,
    };
}
