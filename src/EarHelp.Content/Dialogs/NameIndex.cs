using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;

namespace EarHelp.Content.Dialogs;

/// <summary>Finds things of one kind by name, and lists of them in cells.</summary>
sealed class NameIndex
{
    readonly string _what;
    readonly ProblemList _problems;
    readonly Dictionary<string, int> _places = new(StringComparer.Ordinal);

    public NameIndex(string what, IEnumerable<string> names, ProblemList problems)
    {
        (_what, _problems) = (what, problems);
        foreach (var name in names)
            _places.TryAdd(name, _places.Count);
    }

    /// <summary>Null for <c>-</c>, and after a fault.</summary>
    public int? Find(PageCell cell)
    {
        if (cell.IsNothing)
            return null;
        if (_places.TryGetValue(cell.Text, out var place))
            return place;
        _problems.AddUnknown(Codes.UnknownName, cell.Spot, _what, cell.Text, _places.Keys);
        return null;
    }

    /// <summary>Entries between commas; empty for <c>-</c>.</summary>
    public ImmutableArray<int> FindAll(PageCell cell)
    {
        if (cell.IsNothing)
            return [];
        var found = ImmutableArray.CreateBuilder<int>();
        foreach (var (text, spot) in cell.SplitAt(','))
        {
            if (!_places.TryGetValue(text, out var place))
                _problems.AddUnknown(Codes.UnknownName, spot, _what, text, _places.Keys);
            else if (found.Contains(place))
                _problems.Add(Codes.DoubledName, spot, $"\"{text}\" stands twice in one cell.", "Keep one of them.");
            else
                found.Add(place);
        }

        return found.ToImmutable();
    }
}
