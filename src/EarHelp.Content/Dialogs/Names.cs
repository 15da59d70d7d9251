using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Names that authors give, and names they use.</summary>
static partial class Names
{
    /// <summary>Checks a name that is given here for the first time.</summary>
    public static bool IsFree<T>(Cell cell, IReadOnlyDictionary<string, T> taken, string what, ProblemList problems)
    {
        if (!LowerCaseWords().IsMatch(cell.Text))
        {
            problems.Add(
                Codes.BadName,
                cell.Spot,
                $"\"{cell.Text}\" cannot be the name of {what}.",
                "Write lower-case words of letters, digits and hyphens, with one blank between.");
            return false;
        }

        if (!taken.ContainsKey(cell.Text))
            return true;
        problems.Add(Codes.NameTaken, cell.Spot, $"The name \"{cell.Text}\" is given twice.", $"Give this {what[(what.IndexOf(' ') + 1)..]} another name, or take the row out.");
        return false;
    }

    public static void ReportUnknown(string name, SourceSpot spot, string what, IEnumerable<string> known, ProblemList problems)
    {
        var near = NearestName.To(name, known);
        problems.Add(
            Codes.UnknownName,
            spot,
            $"There is no {what} named \"{name}\".",
            near is null ? $"Check the name, or add the {what} to its table." : $"Did you mean \"{near}\"?");
    }

    /// <summary>The parts of a comma list with the place of each; empty for a cell that says nothing.</summary>
    public static IEnumerable<(string Name, SourceSpot Spot)> List(Cell? cell)
    {
        if (cell is null || cell.IsAnything || cell.Text.Length == 0)
            yield break;
        var at = 0;
        foreach (var part in cell.Text.Split(','))
        {
            var lead = part.Length - part.TrimStart().Length;
            yield return (part.Trim(), cell.At(at + lead));
            at += part.Length + 1;
        }
    }

    [GeneratedRegex(@"^[\p{Ll}\d][\p{Ll}\d'-]*( [\p{L}\d'-]+)*$", RegexOptions.CultureInvariant | RegexOptions.NonBacktracking)]
    private static partial Regex LowerCaseWords();
}
