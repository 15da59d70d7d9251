using System.Collections.Immutable;

namespace EarHelp.Content.Reading;

/// <summary>Finds the tables whose lines begin with a bar, and takes them out of the text that Markdig reads.</summary>
/// <remarks>
/// Nearly all of our tables begin so, and parsing every cell as Markdown only to cut the line again is most of the time of a
/// start. A table written in another way, such as without bars at its sides, is left to Markdig.
/// </remarks>
static class TableFinder
{
    /// <summary>First and last lines, from 0.</summary>
    public static ImmutableArray<(int First, int Last)> Find(SourceText source)
    {
        var found = ImmutableArray.CreateBuilder<(int, int)>();
        var fence = '\0';
        for (var line = 0; line < source.LineCount; line++)
        {
            var text = source.LineAt(line);
            if (FenceOf(text) is var mark and not '\0' && (fence == '\0' || fence == mark))
                fence = fence == '\0' ? mark : '\0';
            if (fence != '\0' || !BeginsWithBar(text) || line + 1 == source.LineCount || !IsHyphens(source.LineAt(line + 1)) || !MayBegin(source, line))
                continue;
            var last = line + 1;
            while (last + 1 < source.LineCount && source.LineAt(last + 1).Trim() is { Length: > 0 } next && next[0] != '#')
                last++;
            found.Add((line, last));
            line = last;
        }

        return found.ToImmutable();
    }

    /// <summary>The text with blanks in place of the tables, so that every offset stays.</summary>
    public static string Without(SourceText source, ImmutableArray<(int First, int Last)> tables)
    {
        if (tables.IsEmpty)
            return source.Text;
        return string.Create(source.Text.Length, (source, tables), static (span, state) =>
        {
            state.source.Text.CopyTo(span);
            foreach (var (first, last) in state.tables)
            {
                var start = state.source.StartOf(first);
                foreach (ref var c in span[start..(state.source.StartOf(last) + state.source.LineAt(last).Length)])
                    c = c == '\n' ? '\n' : ' ';
            }
        });
    }

    static bool BeginsWithBar(string line)
    {
        var indent = line.AsSpan().IndexOfAnyExcept(' ');
        return indent is >= 0 and < 4 && line[indent] == '|';
    }

    // After text a bar would belong to the paragraph: that is reported where the paragraph is read.
    static bool MayBegin(SourceText source, int line)
    {
        if (line == 0)
            return true;
        var before = source.LineAt(line - 1);
        return before.AsSpan().Trim().IsEmpty || before[0] == '#' || before.Trim() == "---";
    }

    static bool IsHyphens(string line)
    {
        var text = line.AsSpan().Trim();
        return text.Contains('|') && text.Contains('-') && text.IndexOfAnyExcept("|-: ") < 0;
    }

    static char FenceOf(string line)
    {
        var text = line.AsSpan().TrimStart();
        return text.StartsWith("```") ? '`' : text.StartsWith("~~~") ? '~' : '\0';
    }
}
