using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Properties;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Seeing;

/// <summary>One row in words, with the smallest patient who meets it.</summary>
/// <param name="InWords">One sentence.</param>
/// <param name="Decided">The smallest patient who gets the level from this row, or null if nobody does.</param>
/// <param name="Met">The smallest patient who meets it, or null.</param>
/// <param name="Deciding">How many get their level from it.</param>
/// <param name="Meeting">How many meet it.</param>
/// <param name="StandsOn">The facts it stands on, in asking order.</param>
public sealed record RuleExplanation(
    Rule Rule, string InWords, ExamplePatient? Decided, ExamplePatient? Met, BigInteger Deciding, BigInteger Meeting, ImmutableArray<string> StandsOn)
{
    /// <param name="name">A row, or the owner of several: all of its rows.</param>
    /// <exception cref="DiagramLimitException">The tables are larger than the bound of a proof.</exception>
    public static ImmutableArray<RuleExplanation> Of(Edition edition, string name)
    {
        ArgumentNullException.ThrowIfNull(edition);
        var rules = edition.Dialog.Rules.Where(r => r.Id == name || r.Owner == name).ToArray();
        if (rules.Length == 0)
            return [];
        var proof = new ProofContext(ProofSpace.Of(edition.Dialog, EditionProof.NodeLimit), edition);
        return [.. rules.Select(r => Of(proof, r))];
    }

    static RuleExplanation Of(ProofContext proof, Rule rule)
    {
        var met = proof.Space.And(proof.Space.Possible, proof.Space.Matches[rule.Index]);
        var decided = rule.Level is null ? Terminal.False : proof.DecidedBy(rule);
        var facts = FactsBehind.Of(proof.Dialog, rule.Conditions).Order().Select(f => proof.Dialog.Facts[f].DecidingId);
        return new RuleExplanation(rule, Words(proof, rule), Shown(decided), Shown(met), proof.Count(decided), proof.Count(met), [.. facts]);

        ExamplePatient? Shown(int set) => set == Terminal.False ? null : proof.Smallest.Of(set);
    }

    static string Words(ProofContext proof, Rule rule)
    {
        var dialog = proof.Dialog;
        var conditions = rule.IsOtherwise ? "no other row with a level matches" : string.Join(" and ", rule.Conditions.Select(c => $"{proof.NameOf(c)} is {c.Written}"));
        string[] conclusions =
        [
            .. rule.Level is { } level ? [$"it is \"{dialog.Levels[level].Id}\", at: {string.Join(", ", rule.Where.Select(d => dialog.Destinations[d].Id))}"] : (string[])[],
            .. rule.Warn.Select(w => $"it warns: {w}"),
            .. rule.Give.Select(a => $"it gives: {dialog.Advice[a].Id}"),
            .. rule.Withhold.Select(a => $"it withholds: {dialog.Advice[a].Id}"),
        ];
        return $"If {conditions}, then {string.Join("; ", conclusions)}; because {rule.Because}.";
    }
}
