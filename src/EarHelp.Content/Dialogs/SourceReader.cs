using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the evidence, and the cells that refer to it.</summary>
sealed partial class SourceReader
{
    static readonly string[] HowSure = ["read", "read second hand", "from memory"];
    static readonly string[] WithoutSource = ["common practice", "from memory"];

    readonly HashSet<string> _used = new(StringComparer.Ordinal);
    readonly ProblemList _problems;

    public SourceReader(ImmutableArray<PageTable> tables, ProblemList problems)
    {
        _problems = problems;
        var sources = ImmutableArray.CreateBuilder<Source>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Source, "organisation", "title", "year", "part", "how sure"], [], problems);
            foreach (var row in table.Rows)
            {
                var id = row.Cells[0];
                if (sources.Any(s => s.Id == id.Text))
                    problems.Add(Codes.DoubledName, id.Spot, $"The source \"{id.Text}\" is listed twice.", "Take one of them out, or give it another name.");
                else if (!Id().IsMatch(id.Text))
                    problems.Add(Codes.MalformedName, id.Spot, $"\"{id.Text}\" is not the name of a source.", "Write a letter and digits, for example S07.");
                else
                    sources.Add(Read(row, columns));
            }
        }

        All = sources.ToImmutable();
    }

    public ImmutableArray<Source> All { get; }

    Source Read(PageRow row, Columns columns)
    {
        string Text(string column) => columns.Cell(row, column).Text;
        var sure = columns.Cell(row, "how sure");
        if (!sure.IsMissing && !HowSure.Contains(sure.Text))
            _problems.Add(Codes.WrongChoice, sure.Spot, $"\"{sure.Text}\" does not say how sure the source is.", $"Write one of: {string.Join(", ", HowSure)}.");
        return new Source(row.Cells[0].Text, Text("organisation"), Text("title"), Text("year"), Text("part"), sure.Text, row.Spot);
    }

    /// <summary>Names of sources without brackets, <c>common practice</c> or <c>from memory</c>.</summary>
    /// <param name="owner">For the message, if there is none.</param>
    public ImmutableArray<string> Refer(PageCell cell, string owner)
    {
        if (cell.IsMissing)
            return [];
        if (cell.IsNothing)
            _problems.Add(Codes.MissingSource, cell.Spot, $"{owner} names no source.", "Write [S07], \"common practice\" or \"from memory\".");
        var referred = ImmutableArray.CreateBuilder<string>();
        foreach (var (text, spot) in cell.IsNothing ? [] : cell.SplitAt(','))
        {
            if (WithoutSource.Contains(text))
                referred.Add(text);
            else if (Reference().Match(text) is { Success: true } match)
                Refer(match.Groups[1].Value, spot, referred);
            else
                _problems.AddUnknown(Codes.UnknownName, spot, "source", text, All.Select(s => $"[{s.Id}]").Concat(WithoutSource));
        }

        return referred.ToImmutable();
    }

    void Refer(string id, SourceSpot spot, ImmutableArray<string>.Builder referred)
    {
        if (All.Any(s => s.Id == id))
        {
            referred.Add(id);
            _used.Add(id);
        }
        else
        {
            _problems.AddUnknown(Codes.UnknownName, spot, "source", id, All.Select(s => s.Id));
        }
    }

    public void ReportUnused()
    {
        foreach (var source in All.Where(s => !_used.Contains(s.Id)))
            _problems.Add(Codes.UnusedSource, source.Spot, $"No page uses the source \"{source.Id}\".", "Take it out, or refer to it where it belongs.");
    }

    [GeneratedRegex(@"^[A-Z][A-Z-]*\d+[a-z]?$", RegexOptions.CultureInvariant)]
    private static partial Regex Id();

    [GeneratedRegex(@"^\[([^\]]+)\]$", RegexOptions.CultureInvariant)]
    private static partial Regex Reference();
}
