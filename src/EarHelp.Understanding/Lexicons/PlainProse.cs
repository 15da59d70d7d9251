using System.Text;
using EarHelp.Triage.Texts;

namespace EarHelp.Understanding.Lexicons;

/// <summary>The words of a text without its form; blanks are left out.</summary>
static class PlainProse
{
    public static string Of(Prose prose)
    {
        var text = new StringBuilder();
        if (prose.IsEmpty)
            return string.Empty;
        foreach (var block in prose.Blocks)
        {
            foreach (var inline in block.Lines.SelectMany(l => l))
                text.Append(WordsOf(inline));
            text.Append(' ');
        }

        return text.ToString();
    }

    static string WordsOf(Inline inline) => inline switch
    {
        Inline.Run run => run.Text,
        Inline.Link link => link.Text,
        Inline.Either either => either.Self,
        _ => " ",
    };
}
