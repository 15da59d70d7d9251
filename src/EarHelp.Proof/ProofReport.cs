using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using EarHelp.Proof.Findings;
using EarHelp.Proof.Patients;

namespace EarHelp.Proof;

/// <summary>What a proof showed.</summary>
/// <param name="Patients">How many possible patients it speaks of: every one, numbers and dates included.</param>
/// <param name="MostScreens">The most screens after the form that anybody can be asked.</param>
/// <param name="MayLower">Facts of which no direction is worse, so that an answer may lower the level: these are for clinicians to sign.</param>
/// <param name="Nodes">Diagram nodes that the proof took.</param>
public sealed record ProofReport(ImmutableArray<Finding> Findings, BigInteger Patients, int MostScreens, ImmutableArray<string> MayLower, int Nodes)
{
    public ImmutableArray<Finding> Errors => [.. Findings.Where(f => !f.IsNotice)];

    /// <summary>One line in figures.</summary>
    public string Summary(TimeSpan took)
    {
        var broken = Errors.Select(f => f.Breaks).Distinct(StringComparer.Ordinal).ToArray();
        var held = PropertyNames.All.Count(p => !broken.Contains(p));
        var seconds = took.TotalSeconds.ToString("0.0", CultureInfo.InvariantCulture);
        return broken.Length == 0
            ? $"{held} properties hold for {Amount.InWords(Patients)} possible patients ({seconds} s)"
            : $"{Errors.Length} findings against {string.Join(", ", broken)}, over {Amount.InWords(Patients)} possible patients ({seconds} s)";
    }
}
