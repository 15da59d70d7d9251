using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Properties;

/// <summary>Every possible patient has exactly one level, an answer on "may treat", and an outcome page in every language.</summary>
static class Total
{
    public static IEnumerable<Finding> Of(ProofContext proof)
    {
        var space = proof.Space;
        var unforeseen = space.Without(space.Possible, space.Any(proof.Deciding.Select(r => space.Matches[r.Index])));
        if (unforeseen != Terminal.False)
            yield return new NobodyDecides("how urgent it is", [.. proof.Deciding.TakeLast(1).Select(r => r.Spot)], proof.Smallest.Of(unforeseen), proof.Count(unforeseen));

        var treated = proof.Dialog.TreatRules.IsEmpty ? space.Possible : space.Any(proof.Dialog.TreatRules.Select(t => space.All(t.Conditions)));
        var untreated = space.Without(space.Possible, treated);
        if (untreated != Terminal.False)
            yield return new NobodyDecides("whether the clinic may treat", [proof.Dialog.TreatRules[^1].Spot], proof.Smallest.Of(untreated), proof.Count(untreated));

        if (proof.Edition is null)
            yield break;
        foreach (var wording in proof.Edition.Wordings.Values.OrderBy(w => w.Language, StringComparer.Ordinal))
        {
            foreach (var level in proof.Dialog.Levels.Where(l => !wording.Outcomes.ContainsKey(l.Id)))
            {
                var reaching = space.Where(space.Roots.Level, rank => rank == level.Rank);
                if (reaching != Terminal.False)
                    yield return new NoOutcomePage(level.Id, wording.Language, [level.Spot], proof.Smallest.Of(reaching), proof.Count(reaching));
            }
        }
    }
}
