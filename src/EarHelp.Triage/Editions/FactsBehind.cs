using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Editions;

/// <summary>The asked facts on which conditions stand, also those behind named facts.</summary>
public static class FactsBehind
{
    /// <returns>Indexes of facts.</returns>
    public static HashSet<int> Of(Dialog dialog, IEnumerable<Condition> conditions)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        var found = new HashSet<int>();
        var seen = new HashSet<int>();
        Collect(conditions);
        return found;

        void Collect(IEnumerable<Condition> some)
        {
            // What nobody can meet stands on no fact.
            foreach (var condition in some.Where(c => !c.Values.IsEmpty))
            {
                if (!condition.Of.IsNamedFact)
                    found.Add(condition.Of.Index);
                else if (seen.Add(condition.Of.Index))
                    Collect(dialog.NamedFacts[condition.Of.Index].Rows.SelectMany(r => r.Conditions));
            }
        }
    }
}
