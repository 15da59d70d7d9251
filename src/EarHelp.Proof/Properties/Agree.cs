using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Properties;

/// <summary>Two rules that match together never say opposite things about one advice item.</summary>
static class Agree
{
    public static IEnumerable<Finding> Of(ProofContext proof)
    {
        var space = proof.Space;
        foreach (var item in proof.Dialog.Advice)
        {
            foreach (var giving in proof.Dialog.Rules.Where(r => r.Give.Contains(item.Index)))
            {
                foreach (var withholding in proof.Dialog.Rules.Where(r => r.Withhold.Contains(item.Index)))
                {
                    var both = space.And(space.Possible, space.Matches[giving.Index], space.Matches[withholding.Index]);
                    if (both != Terminal.False)
                        yield return new GivenAndWithheld(item.Id, giving.Id, withholding.Id, [giving.Spot, withholding.Spot], proof.Smallest.Of(both), proof.Count(both));
                }
            }
        }
    }
}
