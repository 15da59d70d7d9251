using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>Turns offsets in a text into lines and columns.</summary>
sealed class Lines
{
    readonly string _path;
    readonly string _text;
    readonly List<int> _starts = [0];

    public Lines(string path, string text)
    {
        (_path, _text) = (path, text);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n')
                _starts.Add(i + 1);
        }
    }

    public SourceSpot SpotOf(int offset)
    {
        var at = _starts.BinarySearch(Math.Max(0, offset));
        var line = at >= 0 ? at : ~at - 1;
        return new SourceSpot(_path, line + 1, offset - _starts[line] + 1);
    }

    /// <param name="last">The last character, included.</param>
    public string Slice(int first, int last) =>
        first < 0 || first >= _text.Length || last < first ? string.Empty : _text[first..Math.Min(_text.Length, last + 1)];

    /// <param name="line">From 0.</param>
    public string Line(int line)
    {
        if (line >= _starts.Count)
            return string.Empty;
        var end = line + 1 < _starts.Count ? _starts[line + 1] - 1 : _text.Length;
        return _text[_starts[line]..end];
    }

    public SourceSpot SpotAt(int line, int column) => new(_path, line + 1, column + 1);
}
