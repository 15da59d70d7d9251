using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the pages of <c>dialogs/</c>: first what names, then what uses names.</summary>
static class DialogCompiler
{
    public static CompiledDialog Compile(IReadOnlyList<Page> pages, ProblemList problems)
    {
        var (id, screensAtMost) = DialogSettings.Read(pages, problems);
        var tables = TableKinds.Sort(pages, problems);
        var levels = LevelReader.Read(tables.Of(TableKinds.Level), problems);
        var sources = new SourceReader(tables.Of(TableKinds.Source), problems);

        var factReader = new FactReader(problems);
        var numbers = NumberReader.Read(tables.Of(TableKinds.Number), factReader.Names, problems);
        var facts = factReader.Read(tables.Of(TableKinds.Fact), numbers);
        ReportNumbersOfNothing(numbers, facts, problems);

        var scope = new FactScope(facts, factReader.Damaged);
        var conditions = new ConditionReader(scope, problems);
        var ruleTables = tables.Of(TableKinds.Rule).Select(t => RuleTable.Read(t, problems)).ToImmutableArray();
        var named = new NamedFactReader(scope, conditions, sources, problems).Read(Drafts(tables, ruleTables, factReader.Names));
        facts = [.. facts.Select(f => f with { AppliesWhen = conditions.ReadList(factReader.AppliesWhen[f.Id]) })];

        var destinations = DestinationReader.Read(tables.Of(TableKinds.Destination), conditions, problems);
        var adviceTables = tables.Of(TableKinds.Advice);
        var names = new RuleNames(levels, destinations, AdviceReader.Names(adviceTables), facts, problems);
        var rules = new RuleReader(names, conditions, sources, problems);
        rules.Read(ruleTables);
        var adviceReader = new AdviceReader(conditions, sources, problems);
        var impossible = adviceReader.ReadImpossible(tables.Of(TableKinds.Impossible));
        var findings = new FindingReader(conditions, sources, facts, problems).Read(tables.Of(TableKinds.Finding), ImpossibleFacts(impossible));
        var adviceNames = AdviceReader.Names(adviceTables);
        var dialog = new Dialog(
            id,
            screensAtMost,
            facts,
            named,
            ScreenReader.Read(tables.Of(TableKinds.Screen), facts, problems),
            rules.Rules,
            rules.TreatRules,
            adviceReader.ReadAdvice(adviceTables, names.Levels),
            adviceReader.ReadExplanations(tables.Of(TableKinds.Explanation)),
            impossible,
            levels,
            destinations)
        {
            DropsPlans = new DropsPlanReader(new NameIndex("advice item", adviceNames, problems), sources, problems).Read(tables.Of(TableKinds.DropsPlan)),
            Findings = findings,
            Aftercare = new AftercareReader(
                new NameIndex("advice item", adviceNames, problems), new NameIndex("finding", findings.Select(f => f.Id), problems), sources, problems).Read(tables.Of(TableKinds.Aftercare), tables.Of(TableKinds.Finding)),
            AskedGently = DialogSettings.ReadAskedGently(pages, facts.Select(f => f.Id), problems),
        };
        return new CompiledDialog(dialog, scope, sources, conditions, rules.IsOtherwise);
    }

    static HashSet<int> ImpossibleFacts(ImmutableArray<ImpossiblePair> pairs) =>
        [.. pairs.SelectMany(p => new[] { p.One.Of, p.Other.Of }).Where(f => !f.IsNamedFact).Select(f => f.Index)];

    static ImmutableArray<NamedFactDraft> Drafts(TableKinds tables, ImmutableArray<RuleTable> ruleTables, NameList names) =>
    [
        .. tables.NamedFacts.Select(NamedFactDraft.OfList)
            .Concat(ruleTables.SelectMany(t => t.Facts.Select(column => NamedFactDraft.OfColumn(t, column))))
            .Where(d => names.Add(d.Id, d.Spot)),
    ];

    static void ReportNumbersOfNothing(ImmutableArray<CountedNumber> numbers, ImmutableArray<Fact> facts, ProblemList problems)
    {
        foreach (var number in numbers.Where(n => n.Since.Text.Length > 0 && facts.All(f => f.Id != n.Since.Text)))
            problems.AddUnknown(Codes.WrongNumber, number.Since.Spot, "date", number.Since.Text, facts.Select(f => f.Id));
    }
}
