using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Names of one kind, each given once.</summary>
sealed partial class NameList(string what, ProblemList problems)
{
    readonly Dictionary<string, SourceSpot> _given = new(StringComparer.Ordinal);

    /// <summary>Reports a name that is malformed or given before; the first one stands.</summary>
    /// <returns>False if the name cannot be used.</returns>
    public bool Add(string name, SourceSpot spot)
    {
        if (name.Length == 0)
            return false;
        if (!Form().IsMatch(name))
            problems.Add(Codes.MalformedName, spot, $"\"{name}\" is not a name.", "Names are lower-case words: letters, digits, single blanks, hyphens.");
        if (_given.TryAdd(name, spot))
            return true;
        problems.Add(Codes.DoubledName, spot, $"The {what} \"{name}\" is given twice; first at {_given[name]}.", "Take one of them out, or give it another name.");
        return false;
    }

    public bool Add(PageCell cell) => Add(cell.Text, cell.Spot);

    [GeneratedRegex(@"^[\p{Ll}\p{Lo}\p{Nd}]+(?:[ -][\p{Ll}\p{Lo}\p{Nd}']+)*$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
