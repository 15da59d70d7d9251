using System.Buffers;
using System.Globalization;
using System.Text;

namespace EarHelp.Web.Markup;

/// <summary>
/// Writes HTML as UTF-8. Markup is taken as bytes only, so that a text, which is always a string, can never be written as markup
/// by mistake; every string is encoded.
/// </summary>
public sealed class HtmlWriter(IBufferWriter<byte> output)
{
    /// <summary>Markup of our own, never anything that a person or an author wrote.</summary>
    public HtmlWriter Markup(ReadOnlySpan<byte> markup)
    {
        output.Write(markup);
        return this;
    }

    /// <summary>Text between tags.</summary>
    public HtmlWriter Text(ReadOnlySpan<char> text)
    {
        while (!text.IsEmpty)
        {
            var plain = text.IndexOfAnyExcept(HtmlCharacters.Plain);
            if (plain < 0)
                plain = text.Length;
            if (plain > 0)
                WritePlain(text[..plain]);
            text = text[plain..];
            if (!text.IsEmpty)
                text = text[WriteSpecial(text)..];
        }

        return this;
    }

    public HtmlWriter Number(int number)
    {
        var span = output.GetSpan(16);
        _ = number.TryFormat(span, out var written, provider: CultureInfo.InvariantCulture);
        output.Advance(written);
        return this;
    }

    /// <summary>An attribute inside an open tag, with the blank before it; null writes nothing.</summary>
    /// <param name="name">Of our own, like markup.</param>
    public HtmlWriter Attribute(ReadOnlySpan<byte> name, string? value)
    {
        if (value is null)
            return this;
        Markup(" "u8).Markup(name).Markup("=\""u8).Text(value);
        return Markup("\""u8);
    }

    /// <summary>A text in an element without attributes: <c>p</c>, <c>h2</c> …</summary>
    public HtmlWriter Element(ReadOnlySpan<byte> name, string text)
    {
        Markup("<"u8).Markup(name).Markup(">"u8).Text(text);
        return Markup("</"u8).Markup(name).Markup(">"u8);
    }

    /// <summary>What a person typed: kept apart, so that its writing direction cannot turn the text around it.</summary>
    public HtmlWriter Typed(string text) => Markup("<bdi>"u8).Text(text).Markup("</bdi>"u8);

    void WritePlain(ReadOnlySpan<char> text)
    {
        var span = output.GetSpan(Encoding.UTF8.GetMaxByteCount(text.Length));
        output.Advance(Encoding.UTF8.GetBytes(text, span));
    }

    int WriteSpecial(ReadOnlySpan<char> text)
    {
        var encoded = HtmlCharacters.Encode(text[0]);
        if (!encoded.IsEmpty)
        {
            Markup(encoded);
            return 1;
        }

        // A pair of surrogates is one letter; a lone one, like a control character, is shown as "not a letter".
        if (Rune.DecodeFromUtf16(text, out var rune, out var used) == OperationStatus.Done && !Rune.IsControl(rune))
        {
            var span = output.GetSpan(4);
            output.Advance(rune.EncodeToUtf8(span));
            return used;
        }

        Markup("\uFFFD"u8);
        return used;
    }
}
