using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>The text of a file, with line feeds only, and where each place of it stands.</summary>
sealed class SourceText
{
    static readonly UTF8Encoding StrictUtf8 = new(false, true);
    readonly ImmutableArray<int> _lineStarts;

    SourceText(string path, string text)
    {
        Path = path;
        Text = text;
        var starts = ImmutableArray.CreateBuilder<int>();
        starts.Add(0);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n')
                starts.Add(i + 1);
        }

        _lineStarts = starts.ToImmutable();
    }

    public string Path { get; }

    public string Text { get; }

    public int LineCount => _lineStarts.Length;

    public SourceSpot SpotAt(int offset)
    {
        var line = LineOf(offset);
        return new SourceSpot(Path, line + 1, Math.Clamp(offset, 0, Text.Length) - _lineStarts[line] + 1);
    }

    /// <summary>From 0.</summary>
    public int LineOf(int offset)
    {
        var line = _lineStarts.BinarySearch(Math.Clamp(offset, 0, Text.Length));
        return line >= 0 ? line : ~line - 1;
    }

    /// <param name="line">From 0.</param>
    public int StartOf(int line) => _lineStarts[line];

    /// <param name="line">From 0.</param>
    public string LineAt(int line)
    {
        var end = line + 1 < _lineStarts.Length ? _lineStarts[line + 1] - 1 : Text.Length;
        return Text[_lineStarts[line]..end];
    }

    /// <summary>Reads what word processors save: a byte-order mark, carriage returns and hard blanks are taken as plain ones.</summary>
    public static SourceText Read(SourceFile file, ProblemList problems)
    {
        var text = new SourceText(file.Path, Plain(Decode(file, problems)));
        for (var i = 0; i < text.Text.Length; i++)
        {
            var c = text.Text[i];
            if (c is '\u200B' or '\u200C' or '\u200D' or '\u2060' or '\u00AD' or '\uFEFF' || (char.IsControl(c) && c is not ('\n' or '\t')))
                problems.Add(Codes.InvisibleCharacter, text.SpotAt(i), $"Here stands a character that cannot be seen (U+{(int)c:X4}).", "Delete it; if it does not show, type the line anew.");
        }

        return text;
    }

    static string Decode(SourceFile file, ProblemList problems)
    {
        var bytes = file.Bytes.Span;
        var start = new SourceSpot(file.Path, 1, 1);
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            problems.Add(Codes.NotUtf8, start, "The file is saved as UTF-16.", "Save it as plain text in UTF-8.");
            return (bytes[0] == 0xFF ? Encoding.Unicode : Encoding.BigEndianUnicode).GetString(bytes[2..]);
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
            bytes = bytes[3..];
        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException e)
        {
            var line = 1 + bytes[..Math.Clamp(e.Index, 0, bytes.Length)].Count((byte)'\n');
            problems.Add(Codes.NotUtf8, start with { Line = line }, "The file is not in UTF-8: here is the first character that cannot be read.", "Save it as plain text in UTF-8.");
            return Encoding.Latin1.GetString(bytes);
        }
    }

    static string Plain(string text) => text.ReplaceLineEndings("\n")
        .Replace('\u00A0', ' ').Replace('\u202F', ' ').Replace('\u2007', ' ');
}
