using System.Text;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>A text without its form, blanks in braces as they were written.</summary>
static class PlainWords
{
    public static string Of(Prose prose)
    {
        var text = new StringBuilder();
        foreach (var block in prose.Blocks)
        {
            if (text.Length > 0)
                text.Append('\n');
            foreach (var line in Lines(block))
                text.Append(line);
        }

        return text.ToString();
    }

    /// <summary>Paragraphs, headings and list entries, each as one line.</summary>
    public static IEnumerable<string> Lines(Block block) => block.Lines.Select(l => Line(l));

    static string Line(IEnumerable<Inline> inlines) => string.Concat(inlines.Select(i => i switch
    {
        Inline.Run run => run.Text,
        Inline.Link link => link.Text,
        Inline.Blank blank => $"{{{blank.Name}}}",
        Inline.Either either => $"{{{either.Self}|{either.Other}}}",
        _ => throw new System.Diagnostics.UnreachableException(),
    }));
}
