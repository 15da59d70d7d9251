using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Checks that need the whole dialog.</summary>
static class DialogChecks
{
    const double HoursOfADay = 24;
    const string EarsAffected = "ears affected";
    const string AboutWhom = "about whom";

    static readonly string[] Ears = ["left", "right", "both"];
    static readonly string[] Persons = ["me", "someone else"];

    public static void Check(DialogDraft draft)
    {
        CheckRedFlags(draft);
        CheckUse(draft);
        CheckKnown(draft, EarsAffected, Ears, draft.Facts.Any(f => f.About == About.Ear));
        CheckKnown(draft, AboutWhom, Persons, false);
        if (!TableKind.Find(draft.Pages, "fact").Any())
            draft.Problems.Add(Codes.MissingTable, new("dialogs", 1, 1), "No table of facts is there.", "Write one whose first heading is \"fact\".");
    }

    /// <summary>Every symptom or event in a row within a day or sooner is a danger sign, or says why it is none.</summary>
    static void CheckRedFlags(DialogDraft draft)
    {
        var urgent = draft.Levels.Values.Where(l => PlacesReader.HoursOf(l) <= HoursOfADay).Select(l => l.Rank).ToHashSet();
        var reported = new HashSet<int>();
        foreach (var rule in draft.Rules.Where(r => r.Level is { } level && urgent.Contains(level)))
        {
            foreach (var fact in AskedFactsOf(draft, rule.Conditions).Where(f => draft.Facts[f].RedFlag is RedFlag.Unmarked && reported.Add(f)))
            {
                draft.Problems.Add(
                    Codes.RedFlagNeeded,
                    draft.Facts[fact].Spot,
                    $"\"{draft.Facts[fact].Id}\" decides in the urgent rule {rule.Id} and is not marked as a red flag.",
                    "Write yes in the column \"red flag\" and give it a second wording; or \"no, because it is an age\" (a time, a medicine …).");
            }
        }
    }

    static void CheckUse(DialogDraft draft)
    {
        var used = new HashSet<int>(AskedFactsOf(draft, AllConditions(draft)));
        used.UnionWith(draft.Facts.SelectMany(f => f.AppliesWhen).Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index));
        used.UnionWith(draft.Rules.Select(r => r.CountsFrom).OfType<int>());
        foreach (var fact in draft.Facts.Where(f => !used.Contains(f.Index) && f.Id is not (EarsAffected or AboutWhom)))
            draft.Problems.Add(Codes.UnusedFact, fact.Spot, $"No rule, item or named fact uses \"{fact.Id}\".", "Use it or take it out: what decides nothing is not asked.");
    }

    static void CheckKnown(DialogDraft draft, string name, string[] values, bool isNeeded)
    {
        var fact = draft.Facts.FirstOrDefault(f => f.Id == name);
        if (fact is null && isNeeded)
            draft.Problems.Add(Codes.WrongKnownFact, new("dialogs", 1, 1), $"Facts about an ear are there, but no fact \"{name}\".", $"Add the fact \"{name}\" about the person with the values {string.Join(", ", values)}.");
        if (fact is not null && (fact.About != About.Person || fact.Values is not FactValues.Named named || !named.Names.SequenceEqual(values)))
            draft.Problems.Add(Codes.WrongKnownFact, fact.Spot, $"The program knows \"{name}\" with other values.", $"Write {string.Join(", ", values)}, about the person.");
    }

    static IEnumerable<int> AskedFactsOf(DialogDraft draft, IEnumerable<Condition> conditions) =>
        conditions.SelectMany(c => c.Of.IsNamedFact
            ? AskedFactsOf(draft, draft.NamedFacts[c.Of.Index].Rows.SelectMany(r => r.Conditions))
            : [c.Of.Index]);

    static ImmutableArray<Condition> AllConditions(DialogDraft draft) =>
    [
        .. draft.Rules.SelectMany(r => r.Conditions),
        .. draft.TreatRules.SelectMany(r => r.Conditions),
        .. draft.Advice.Values.SelectMany(a => a.OnlyIf.AddRange(a.NeverIf)),
        .. draft.Explanations.Values.SelectMany(e => e.OnlyIf),
        .. draft.Destinations.Values.Select(d => d.ReachedWhen).OfType<Condition>(),
    ];
}
