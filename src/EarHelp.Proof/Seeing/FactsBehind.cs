using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Seeing;

/// <summary>The asked facts on which conditions stand, also those behind named facts.</summary>
static class FactsBehind
{
    public static HashSet<int> Of(Dialog dialog, IEnumerable<Condition> conditions)
    {
        var found = new HashSet<int>();
        var seen = new HashSet<int>();
        Collect(conditions);
        return found;

        void Collect(IEnumerable<Condition> some)
        {
            foreach (var condition in some)
            {
                if (!condition.Of.IsNamedFact)
                    found.Add(condition.Of.Index);
                else if (seen.Add(condition.Of.Index))
                    Collect(dialog.NamedFacts[condition.Of.Index].Rows.SelectMany(r => r.Conditions));
            }
        }
    }
}
