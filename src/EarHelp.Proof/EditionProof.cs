using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Findings;
using EarHelp.Proof.Properties;
using EarHelp.Proof.Spaces;
using EarHelp.Proof.Tables;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof;

/// <summary>Proves an edition safe over all its possible patients, or says who shows that it is not.</summary>
public static class EditionProof
{
    /// <summary>Bound on the diagram nodes of one proof, so that it ends within the memory of a small machine.</summary>
    public const int NodeLimit = 2_000_000;

    public static ProofReport Of(Edition edition, int nodeLimit = NodeLimit)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return Of(edition.Dialog, edition, nodeLimit);
    }

    /// <summary>The decisions alone, without the words.</summary>
    public static ProofReport Of(Dialog dialog, int nodeLimit = NodeLimit)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        return Of(dialog, null, nodeLimit);
    }

    static ProofReport Of(Dialog dialog, Edition? edition, int nodeLimit)
    {
        ImmutableArray<string> mayLower = [.. dialog.Facts.Where(f => f.Worse is Worse.NoDirection).Select(f => f.DecidingId)];
        try
        {
            var proof = new ProofContext(ProofSpace.Of(dialog, nodeLimit), edition);
            var asking = new Asking(proof.Space);
            ImmutableArray<Finding> findings =
            [
                .. Total.Of(proof),
                .. new Monotone(proof).Findings(),
                .. NoHarm.Of(proof),
                .. Aftercare.Of(proof),
                .. Defer.Of(proof),
                .. Reached.Of(proof, asking),
                .. Length.Of(proof, asking),
                .. Agree.Of(proof),
                .. TableChecks.Of(proof),
            ];
            return new ProofReport(findings, proof.Count(proof.Space.Possible), Length.MostScreens(asking), mayLower, proof.Space.Builder.Nodes.Count);
        }
        catch (DiagramLimitException limit)
        {
            return new ProofReport([new NotFinished(limit.Message)], BigInteger.Zero, 0, mayLower, nodeLimit);
        }
    }
}
