using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>Finds the blanks <c>{seen by}</c> and the choices <c>{you|they}</c> in a line.</summary>
static class BlankReader
{
    public static IEnumerable<Inline> Read(string text, bool isStrong, bool isEmphasised, SourceSpot spot, ProblemList problems)
    {
        var found = new List<Inline>();
        var at = 0;
        while (at < text.Length)
        {
            var open = text.IndexOf('{', at);
            var close = open < 0 ? -1 : text.IndexOf('}', open);
            if (open < 0)
                break;
            if (close < 0 || close == open + 1)
            {
                problems.Add(Codes.BadBlank, spot, "A blank in braces is empty or not closed.", "Write {name of the blank} or {you|they}.");
                break;
            }

            if (open > at)
                found.Add(new Inline.Run(text[at..open], isStrong, isEmphasised));
            var inside = text[(open + 1)..close];
            var parts = inside.Split('|');
            found.Add(parts.Length == 2 ? new Inline.Either(parts[0], parts[1], isStrong) : new Inline.Blank(inside.Trim(), isStrong));
            at = close + 1;
        }

        if (at < text.Length)
            found.Add(new Inline.Run(text[at..], isStrong, isEmphasised));
        return found;
    }
}
