using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Words;

namespace EarHelp.Content.Answers;

/// <summary>The headings under which the answers of one language stand.</summary>
sealed class AnswerGroups
{
    const string Setting = "group";

    readonly ProblemList _problems;
    readonly ImmutableArray<PageCell> _cells;
    readonly HashSet<string> _used = new(StringComparer.Ordinal);
    bool _isPageAtFault;

    public AnswerGroups(WordPages pages, ProblemList problems)
    {
        _problems = problems;
        var cells = ImmutableArray.CreateBuilder<PageCell>();
        foreach (var table in pages.TablesOf(WordPages.AnswerGroups))
        {
            var columns = Columns.Of(table, [Setting], [], problems);
            cells.AddRange(table.Rows.Select(r => columns.Cell(r, Setting)).Where(c => !c.IsMissing));
        }

        foreach (var empty in cells.Where(c => c.IsNothing))
            problems.Add(Codes.EmptyCell, empty.Spot, "A group of answers has no heading.", "Write the heading, or take the row out.");
        _cells = [.. cells.Where(c => !c.IsNothing)];
        foreach (var again in _cells.GroupBy(c => c.Text, StringComparer.Ordinal).SelectMany(g => g.Skip(1)))
            problems.Add(Codes.DoubledName, again.Spot, $"The group \"{again.Text}\" stands twice.", "Keep one of them.");
    }

    public ImmutableArray<string> InOrder => [.. _cells.Select(c => c.Text)];

    /// <returns>The group that a page names; empty after a fault.</returns>
    public string Of(Page page)
    {
        if (page.Settings.Find(Setting) is not { } group)
            _problems.Add(Codes.MissingSetting, page.Settings.Spot, $"The setting \"{Setting}\" is missing.", $"Add a line \"{Setting}: …\" at the top of the file, with a heading of the page of answer groups.");
        else if (!InOrder.Contains(group.Value))
            _problems.AddUnknown(Codes.UnknownName, group.ValueSpot, "group of answers", group.Value, InOrder);
        else
        {
            _used.Add(group.Value);
            return group.Value;
        }

        _isPageAtFault = true;
        return "";
    }

    /// <summary>A heading with nothing below it helps nobody. Not told where a page's own group is wrong: that may be the cause.</summary>
    public void ReportEmpty()
    {
        foreach (var cell in _isPageAtFault ? [] : _cells.Where(c => !_used.Contains(c.Text)))
            _problems.Add(Codes.WordsForNothing, cell.Spot, $"No answer stands under \"{cell.Text}\".", "Take the row out, or name the group in a page.");
    }
}
