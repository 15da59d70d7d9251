using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>Cuts a run of plain words at its braces: <c>{seen by}</c>, <c>{you|they}</c>.</summary>
sealed partial class RunReader(string run, Func<int, SourceSpot> at, bool isStrong, bool isEmphasised, BlankNames blanks, ProblemList problems)
{
    public void Read(ImmutableArray<Inline>.Builder pieces)
    {
        if (Html().Match(run) is { Success: true } html)
            problems.Add(Codes.RawHtml, at(html.Index), $"\"{html.Value}\" looks like HTML.", "Take it out; use **bold**, lists and links only. For the sign < write \"less than\".");
        var start = 0;
        while (start < run.Length)
        {
            var brace = run.AsSpan(start).IndexOfAny('{', '}');
            if (brace < 0)
                break;
            brace += start;
            var end = run[brace] == '{' ? run.AsSpan(brace + 1).IndexOfAny('{', '}') : -1;
            if (end < 0 || run[brace + 1 + end] != '}')
            {
                problems.Add(Codes.BrokenBraces, at(brace), "A brace has no partner.", "Write blanks as {seen by} and pairs as {you|they}; in a table the bar is \\|.");
                AddRun(pieces, run[start..(brace + 1)]);
                start = brace + 1;
                continue;
            }

            AddRun(pieces, run[start..brace]);
            AddBlank(pieces, run.Substring(brace + 1, end), brace);
            start = brace + end + 2;
        }

        AddRun(pieces, run[start..]);
    }

    void AddBlank(ImmutableArray<Inline>.Builder pieces, string inside, int brace)
    {
        var sides = inside.Split('|');
        if (sides.Length == 2)
        {
            pieces.Add(new Inline.Either(sides[0].Trim(), sides[1].Trim(), isStrong));
            return;
        }

        var name = inside.Trim();
        if (sides.Length > 2)
            problems.Add(Codes.BrokenBraces, at(brace), $"\"{{{inside}}}\" has more than two sides.", "Write the words for the person first, then those about someone else: {you|they}.");
        else if (!blanks.Knows(name))
            problems.Add(Codes.UnknownBlank, at(brace), $"Nothing is known that fills the blank \"{{{name}}}\".", Suggest(name));
        pieces.Add(new Inline.Blank(name, isStrong));
    }

    string Suggest(string name) => NearestName.To(name, blanks.All) is { } near
        ? $"Did you mean {{{near}}}?"
        : "Use one of the blanks listed in content/README.md.";

    void AddRun(ImmutableArray<Inline>.Builder pieces, string text)
    {
        if (text.Length > 0)
            pieces.Add(new Inline.Run(text, isStrong, isEmphasised));
    }

    [GeneratedRegex("<(?:/?[A-Za-z][A-Za-z0-9-]*(?:\\s[^<>]*)?/?|!--.*?--|[!?][^<>]*)>", RegexOptions.CultureInvariant)]
    private static partial Regex Html();
}
