using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Conversation.Stepping;

/// <summary>
/// Danger signs, and what forbids an advice item: these are always asked, whatever was typed. Not among them are who and where the person
/// is (the short form), and a time that hangs on a danger sign: these are read back word by word, and the sign itself is asked.
/// </summary>
static class FactsToAsk
{
    public static ImmutableArray<bool> Of(Dialog dialog)
    {
        var must = new bool[dialog.Facts.Length];
        foreach (var condition in dialog.Advice.SelectMany(a => a.NeverIf))
            Mark(dialog, condition.Of, must);
        foreach (var fact in dialog.Facts)
            must[fact.Index] = fact.RedFlag is RedFlag.Marked || (must[fact.Index] && fact.AskIn != AskIn.Form && !IsTimeOfDangerSign(dialog, fact));
        return [.. must];
    }

    static bool IsTimeOfDangerSign(Dialog dialog, Fact fact) =>
        fact is { Values: FactValues.Numbers, AppliesWhen.IsEmpty: false }
        && fact.AppliesWhen.All(c => !c.Of.IsNamedFact && dialog.Facts[c.Of.Index].RedFlag is RedFlag.Marked);

    static void Mark(Dialog dialog, FactReference of, bool[] must)
    {
        if (!of.IsNamedFact)
        {
            must[of.Index] = true;
            return;
        }

        foreach (var condition in dialog.NamedFacts[of.Index].Rows.SelectMany(r => r.Conditions))
            Mark(dialog, condition.Of, must);
    }
}
