using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Properties;

/// <summary>
/// Nobody is shown an item that one of their answers, or a missing one, forbids. An item to do needs every possible answer to allow it;
/// any other item is shown as soon as one possible answer calls for it, so that a second possible answer must not forbid it.
/// </summary>
static class NoHarm
{
    public static IEnumerable<Finding> Of(ProofContext proof)
    {
        foreach (var item in proof.Dialog.Advice)
        {
            foreach (var (set, forbids, spot) in Forbidding(proof, item))
            {
                var found = ForKnown(proof, item, set, forbids, spot) ?? (item.Kind == AdviceKind.ToDo ? null : ForUnsure(proof, item, set, forbids, spot));
                if (found is not null)
                    yield return found;
            }
        }
    }

    /// <summary>Each answer and each row that forbids the item, read from what was written.</summary>
    static IEnumerable<(int Set, string Written, SourceSpot Spot)> Forbidding(ProofContext proof, AdviceItem item) =>
    [
        .. item.NeverIf.Select(c => (proof.Space.Of(c), $"\"{proof.NameOf(c)}: {c.Written}\"", c.Spot)),
        .. proof.Dialog.Rules.Where(r => r.Withhold.Contains(item.Index)).Select(r => (proof.Space.Matches[r.Index], $"rule \"{r.Id}\"", r.Spot)),
    ];

    static ShownThoughForbidden? ForKnown(ProofContext proof, AdviceItem item, int set, string forbids, SourceSpot spot)
    {
        var harmed = proof.Space.And(proof.Space.Where(proof.Space.Roots.Advice[item.Index]), set);
        return harmed == Terminal.False
            ? null
            : new ShownThoughForbidden(item.Id, forbids, [item.Spot, spot], proof.Smallest.Of(harmed), proof.Count(harmed));
    }

    /// <summary>Somebody unsure of one fact, of which one value calls for the item and another forbids it.</summary>
    static ShownThoughForbidden? ForUnsure(ProofContext proof, AdviceItem item, int set, string forbids, SourceSpot spot)
    {
        var space = proof.Space;
        var shown = space.Where(space.Roots.Advice[item.Index]);
        var forbidden = space.And(space.Possible, set);
        foreach (var fact in proof.Dialog.Facts)
        {
            var canBeShown = space.Some(shown, fact.Index);
            if (canBeShown == shown)
                continue;
            var harmed = space.And(canBeShown, forbidden);
            if (harmed != Terminal.False)
                return new ShownThoughForbidden(item.Id, forbids, [item.Spot, spot], proof.Smallest.Of(harmed, fact.Index), proof.Count(harmed));
        }

        return null;
    }
}
