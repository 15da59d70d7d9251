using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>
/// Reads what may be recorded of a visit. A finding may only set what it makes worse, or what has no worse end and is not clear: so
/// that what is recorded never makes anything less urgent.
/// </summary>
sealed class FindingReader(ConditionReader conditions, SourceReader sources, ImmutableArray<Fact> facts, ProblemList problems)
{
    const string Kind = "kind", AboutWhat = "about", ForATime = "for a time", Days = "days", ForGood = "for good";

    static readonly (string Name, FindingKind Kind)[] Kinds =
    [
        ("done", FindingKind.Done), ("found", FindingKind.Found), ("learnt", FindingKind.Learnt), ("advised", FindingKind.Advised),
    ];

    /// <param name="impossible">Facts of impossible pairs: two findings must never contradict each other.</param>
    public ImmutableArray<VisitFinding> Read(ImmutableArray<PageTable> tables, IReadOnlySet<int> impossible)
    {
        var names = new NameList("finding", problems);
        var findings = ImmutableArray.CreateBuilder<VisitFinding>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Finding, AboutWhat, Kind, ForATime, Days, ForGood, "source"], [], problems);
            foreach (var row in table.Rows)
            {
                if (!names.Add(row.Cells[0]))
                    continue;
                PageCell Cell(string column) => columns.Cell(row, column);
                var about = ReadAbout(Cell(AboutWhat));
                var sets = ReadSets(Cell(ForATime), Cell(Days), Cell(ForGood));
                Report(row.Spot, row.Cells[0].Text, about, sets, impossible);
                findings.Add(new VisitFinding(
                    findings.Count, row.Cells[0].Text, about, ReadKind(Cell(Kind)), sets, sources.Refer(Cell("source"), $"The finding \"{row.Cells[0].Text}\""), row.Spot));
            }
        }

        return findings.ToImmutable();
    }

    ImmutableArray<FindingFact> ReadSets(PageCell forATime, PageCell days, PageCell forGood)
    {
        var count = ReadDays(days);
        if (!days.IsMissing && forATime.IsNothing == count.HasValue)
            Wrong(days.Spot, forATime.IsNothing ? "There are days, and nothing that counts for a time." : "Nothing says for how many days it counts.", "Write whole days from 1 beside what counts for a time, else -.");
        return [.. SetsOf(forATime, count ?? 1), .. SetsOf(forGood, null)];
    }

    IEnumerable<FindingFact> SetsOf(PageCell cell, int? days)
    {
        foreach (var condition in conditions.ReadList(cell).Where(c => !c.Values.IsEmpty))
        {
            if (condition.Of.IsNamedFact)
                Wrong(condition.Spot, "A named fact follows from others and cannot be recorded.", "Name the asked facts from which it follows.");
            else if (FaultOf(facts[condition.Of.Index], condition) is { } fault)
                Wrong(condition.Spot, fault, "Write the one value that makes it worse; if it has no worse end, one that is not its clear value.");
            else
                yield return new FindingFact(condition.Of.Index, condition.Values.Only!.Value, days);
        }
    }

    static string? FaultOf(Fact fact, Condition condition)
    {
        if (fact.Values is not FactValues.Named || condition.Values.Only is not { } value)
            return $"\"{fact.Id}\" is not set to one value by its name.";
        if (value == fact.Clear)
            return $"\"{fact.Values.NameOf(value)}\" is the clear value of \"{fact.Id}\": recording it could make an answer less urgent.";
        return fact.Worse is Worse.Towards towards && value != (towards.Higher ? fact.Values.Count - 1 : 0)
            ? $"\"{fact.Values.NameOf(value)}\" is not the worse end of \"{fact.Id}\"."
            : null;
    }

    void Report(SourceSpot spot, string finding, About about, ImmutableArray<FindingFact> sets, IReadOnlySet<int> impossible)
    {
        foreach (var set in sets)
        {
            var fact = facts[set.Fact];
            if (about == About.Person && fact.About == About.Ear)
                Wrong(spot, $"The finding \"{finding}\" is about the person, and \"{fact.Id}\" about one ear.", "Let the finding be about an ear.");
            if (impossible.Contains(set.Fact))
                Wrong(spot, $"\"{fact.Id}\" is among the answers that cannot stand together, so no finding may set it.", "Leave it to be asked.");
            foreach (var condition in fact.AppliesWhen.Where(c => !IsMet(c, set, sets)))
                Wrong(spot, $"\"{fact.Id}\" applies only if \"{Name(condition)}\" is {condition.Written}, which the finding \"{finding}\" does not set for as long.", "Set that too, for the same days.");
        }
    }

    static bool IsMet(Condition condition, FindingFact set, ImmutableArray<FindingFact> sets) =>
        !condition.Of.IsNamedFact && sets.Any(s => s.Fact == condition.Of.Index && condition.Values.Contains(s.Value) && (s.Days is null || s.Days >= set.Days));

    string Name(Condition condition) => condition.Of.IsNamedFact ? "a named fact" : facts[condition.Of.Index].Id;

    FindingKind ReadKind(PageCell cell)
    {
        var place = Array.FindIndex(Kinds, k => k.Name == cell.Text);
        if (place < 0 && !cell.IsMissing)
            problems.AddUnknown(Codes.WrongChoice, cell.Spot, "kind of finding", cell.Text, Kinds.Select(k => k.Name));
        return place < 0 ? FindingKind.Found : Kinds[place].Kind;
    }

    About ReadAbout(PageCell cell)
    {
        if (!cell.IsMissing && cell.Text is not ("person" or "ear"))
            problems.Add(Codes.WrongAbout, cell.Spot, $"\"{cell.Text}\" is not what a finding is about.", "Write person or ear.");
        return cell.Text == "person" ? About.Person : About.Ear;
    }

    int? ReadDays(PageCell cell)
    {
        if (cell.IsMissing || cell.IsNothing)
            return null;
        if (int.TryParse(cell.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var days) && days > 0)
            return days;
        Wrong(cell.Spot, $"\"{cell.Text}\" is no number of days.", "Write whole days from 1, or -.");
        return null;
    }

    void Wrong(SourceSpot spot, string fault, string mend) => problems.Add(Codes.WrongFinding, spot, fault, mend);
}
