using EarHelp.Triage.Texts;

namespace EarHelp.Content.Problems;

/// <summary>One fault in a content file, written for the clinician who must mend it.</summary>
/// <param name="Code">Permanent; its page shows a bad example and a good one.</param>
public sealed record Problem(string Code, SourceSpot Spot, string Fault, string Mend)
{
    public override string ToString() => $"{Spot}: error {Code}: {Fault} {Mend}";
}
