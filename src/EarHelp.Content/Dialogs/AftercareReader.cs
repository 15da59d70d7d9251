using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the plan for the time after a visit: which advice, on which days, after which findings.</summary>
sealed class AftercareReader(NameIndex advice, NameIndex findings, SourceReader sources, ProblemList problems)
{
    const string Days = "days", OnlyIf = "only if", NeverIf = "never if";

    const string To = " to ";

    /// <param name="recorded">The tables of findings: where visits are recorded, each one has a plan.</param>
    public ImmutableArray<AftercareStep> Read(ImmutableArray<PageTable> tables, ImmutableArray<PageTable> recorded)
    {
        var names = new NameList("aftercare step", problems);
        var steps = ImmutableArray.CreateBuilder<AftercareStep>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Aftercare, Days, OnlyIf, NeverIf, "source"], [], problems);
            foreach (var row in table.Rows)
            {
                if (!names.Add(row.Cells[0]))
                    continue;
                var referred = sources.Refer(columns.Cell(row, "source"), $"The aftercare step \"{row.Cells[0].Text}\"");
                var (calling, forbidding) = (findings.FindAll(columns.Cell(row, OnlyIf)), findings.FindAll(columns.Cell(row, NeverIf)));
                if (advice.Find(row.Cells[0]) is not { } item || ReadDays(columns.Cell(row, Days)) is not { } days)
                    continue;
                if (!calling.IsEmpty && calling.All(forbidding.Contains))
                    Wrong(row.Spot, $"\"{row.Cells[0].Text}\" is never planned: whatever calls for it also forbids it.", "Take a finding out of \"never if\", or the row.");
                steps.Add(new AftercareStep(steps.Count, item, days, calling, forbidding, referred, row.Spot));
            }
        }

        if (tables.Concat(recorded).FirstOrDefault() is { } place && !steps.Any(s => s.OnlyIf.IsEmpty && s.NeverIf.IsEmpty))
            Wrong(place.Spot, "Some visit has no plan: no row is planned after every visit.", "Let one row of a table \"aftercare\", for example the warning signs, have - in \"only if\" and in \"never if\".");
        return steps.ToImmutable();
    }

    Figures? ReadDays(PageCell cell)
    {
        if (cell.IsMissing)
            return null;
        var at = cell.Text.IndexOf(To, StringComparison.Ordinal);
        var (first, last) = at < 0 ? (cell.Text, cell.Text) : (cell.Text[..at], cell.Text[(at + To.Length)..]);
        if (Whole(first) is { } from && Whole(last) is { } to && from <= to)
            return new Figures(from, to);
        Wrong(cell.Spot, $"\"{cell.Text}\" are no days of a plan.", "Write a day such as 7, or days such as \"0 to 5\"; the day of the visit is 0.");
        return null;
    }

    static int? Whole(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    void Wrong(SourceSpot spot, string fault, string mend) => problems.Add(Codes.WrongAftercare, spot, fault, mend);
}
