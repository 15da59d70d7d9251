using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Checks;

/// <summary>What a dialog must hold as a whole.</summary>
sealed class DialogChecks(CompiledDialog compiled, ProblemList problems)
{
    // The longest that a level may allow and still need its signs marked, and the longest that an otherwise-row may allow. Units:
    // hours. Both are rules of the written format (dialogs/README.md), not clinical findings.
    const decimal HoursOfUrgentLevel = 24;
    const decimal HoursOfOtherwise = 72;

    static readonly (string Fact, string[] Values, string Without)[] KnownToProgram =
    [
        (KnownFacts.AboutWhom, ["me", "someone else"], "a son who writes for his mother is asked about his own ear"),
        (KnownFacts.EarsAffected, ["left", "right", "both"], "of somebody with one sore and one dull ear nobody knows which is which"),
    ];

    readonly Dialog _dialog = compiled.Dialog;

    public void Run(SourceSpot dialogs)
    {
        ReportRequiredFacts(dialogs);
        ReportAppliesWhen();
        ReportUnused();
        ReportOtherwise(dialogs);
        ReportRedFlags();
    }

    void ReportRequiredFacts(SourceSpot dialogs)
    {
        foreach (var (name, values, without) in KnownToProgram)
        {
            var fact = _dialog.Facts.FirstOrDefault(f => f.Id == name);
            if (fact is null)
                problems.Add(Codes.RequiredFact, dialogs, $"There is no fact \"{name}\". Example: {without}.", $"Add it: about person, values {string.Join(", ", values)}.");
            else if (fact.About != About.Person || fact.Values is not FactValues.Named named || !named.Names.SequenceEqual(values))
                problems.Add(Codes.RequiredFact, fact.Spot, $"The fact \"{name}\" is known to the program and is written differently.", $"Write: about person, values {string.Join(", ", values)}.");
        }

        if (_dialog.Levels.IsEmpty)
            problems.Add(Codes.NothingToCompile, dialogs, "There are no levels.", "Add a table \"level | within\", the most urgent first.");
    }

    void ReportAppliesWhen()
    {
        foreach (var fact in _dialog.Facts)
        {
            foreach (var condition in fact.AppliesWhen)
            {
                var used = FactsIn([condition]);
                if (used.FirstOrDefault(f => f.Index >= fact.Index) is { } later)
                    problems.Add(Codes.AppliesTooEarly, condition.Spot, $"Whether \"{fact.Id}\" applies depends on \"{later.Id}\", which is asked later.", $"Put \"{later.Id}\" before it: form comes before safety, safety before story, story before advice.");
                else if (fact.About == About.Person && used.FirstOrDefault(f => f.About == About.Ear) is { } ofEar)
                    problems.Add(Codes.WrongAbout, condition.Spot, $"\"{fact.Id}\" is about the person, and whether it applies depends on \"{ofEar.Id}\", which each ear has of its own.", "Make it a fact about the ear, or ask it always.");
            }
        }
    }

    void ReportUnused()
    {
        foreach (var fact in _dialog.Facts.Where(f => !compiled.Scope.IsUsed(f.DecidingId) && KnownToProgram.All(k => k.Fact != f.Id)))
            problems.Add(Codes.UnusedFact, fact.Spot, $"Nothing uses the fact \"{fact.DecidingId}\".", "Take it out, or use it in a rule, a named fact, advice or an explanation.");
        foreach (var named in _dialog.NamedFacts.Where(n => !compiled.Scope.IsUsed(n.Id)))
            problems.Add(Codes.UnusedFact, named.Spot, $"Nothing uses the named fact \"{named.Id}\".", "Take it out, or use it in a rule, another named fact, advice or an explanation.");
    }

    void ReportOtherwise(SourceSpot dialogs)
    {
        var deciding = _dialog.Rules.Where(r => r.Level is not null).ToList();
        var otherwise = deciding.Where(r => compiled.IsOtherwise(r.Id)).ToList();
        if (otherwise.Count == 0)
            problems.Add(Codes.NoOtherwise, deciding.LastOrDefault()?.Spot ?? dialogs, "No row decides how urgent it is for those whom no other row foresees.", "Add a last row with - in every condition and the level \"within three days\" or a more urgent one.");
        foreach (var rule in otherwise)
        {
            var level = _dialog.Levels[rule.Level!.Value];
            if (level.Within is null || LevelReader.Hours(level.Within) > HoursOfOtherwise)
                problems.Add(Codes.OtherwiseTooMild, rule.Spot, $"The otherwise-row \"{rule.Id}\" concludes \"{level.Id}\", and what nobody foresaw is never the least urgent.", $"Give it a level whose limit is at most PT{HoursOfOtherwise}H.");
        }

        if (!_dialog.TreatRules.IsEmpty && !_dialog.TreatRules.Any(r => compiled.IsOtherwise(r.Id)))
            problems.Add(Codes.NoOtherwise, _dialog.TreatRules[^1].Spot, "No row says whether this clinic may treat those whom no other row foresees.", "Add a last row with - in every condition.");
    }

    void ReportRedFlags()
    {
        var reported = new HashSet<int>();
        foreach (var rule in _dialog.Rules.Where(r => r.Level is { } level && _dialog.Levels[level].Within is { } within && LevelReader.Hours(within) <= HoursOfUrgentLevel))
        {
            foreach (var fact in FactsIn(rule.Conditions).Where(f => f.RedFlag is RedFlag.Unmarked && reported.Add(f.Index)))
            {
                problems.Add(Codes.RedFlagNeeded, fact.Spot, $"\"{fact.Id}\" decides in rule \"{rule.Id}\", which is \"{_dialog.Levels[rule.Level!.Value].Id}\", and is not marked as a red flag.",
                    "Write yes into the column \"red flag\", or \"no, because …\" for an age, a time or a medicine.");
            }
        }
    }

    IEnumerable<Fact> FactsIn(ImmutableArray<Condition> conditions) => FactsBehind.Of(_dialog, conditions).Select(f => _dialog.Facts[f]);
}
