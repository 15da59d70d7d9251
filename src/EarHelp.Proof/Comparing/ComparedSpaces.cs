using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Properties;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Comparing;

/// <summary>Two editions in one space of patients.</summary>
sealed class ComparedSpaces
{
    const int IdLength = 8;

    public ComparedSpaces(Edition before, Edition after, int nodeLimit)
    {
        Facts = new SharedFacts(before.Dialog, after.Dialog);
        var spaces = ProofSpace.Together([Facts.Old, Facts.New], Facts.Classes, nodeLimit);
        (Old, New) = (new ProofContext(spaces[0], null), new ProofContext(spaces[1], null));
        Smallest = new SmallestPatient(spaces[1], FactNames.Of(after, before), spaces[0]);
        Edits = Comparing.Edits.Between(before.Dialog, after.Dialog);
    }

    public SharedFacts Facts { get; }

    public ProofContext Old { get; }

    public ProofContext New { get; }

    public SmallestPatient Smallest { get; }

    public ImmutableArray<Edit> Edits { get; }

    public ProofSpace Space => New.Space;

    public BigInteger Count(int set) => Space.Count.Of(set);

    /// <summary>A group of patients with an example, what it is told, and the rows that cause the change.</summary>
    public Change Tell(Difference difference)
    {
        var (classes, asked) = Smallest.PathIn(difference.Set);
        var (shown, patients) = (Smallest.Told(classes, asked), Count(difference.Set));
        var id = difference.Kind == ChangeKind.LessUrgent ? IdOf(difference, patients, shown) : null;
        return new Change(
            difference.Kind, id, difference.Before, difference.After, difference.Steps, patients, shown, ToldTo(Old, classes), ToldTo(New, classes), CausesOf(difference));
    }

    /// <summary>Another id as soon as the levels, the number of patients or the smallest of them is another.</summary>
    static string IdOf(Difference difference, BigInteger patients, ExamplePatient shown)
    {
        var told = $"{difference.Before}\n{difference.After}\n{patients.ToString(CultureInfo.InvariantCulture)}\n{shown.Json}";
        return $"D-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(told)))[..IdLength]}";
    }

    static string ToldTo(ProofContext proof, int[] classes)
    {
        var end = proof.Space.EndOf(proof.Space.Roots.Urgency, classes);
        if (end == Terminal.Impossible)
            return "not possible";
        var places = proof.Space.Places[Terminal.ValueOf(end)];
        var rule = proof.Deciding.FirstOrDefault(r => proof.Space.EndOf(proof.Space.Matches[r.Index], classes) == Terminal.True);
        return $"{proof.Dialog.Levels[places.Rank].Id}, {string.Join(", ", places.Destinations.Select(d => proof.Dialog.Destinations[d].Id))}{(rule is null ? "" : $" ({rule.Id})")}";
    }

    /// <summary>
    /// Edited rules that decide for some of these patients, or match other ones of them than they did; and edited rows on which unedited
    /// rules stand. If none of these is found, every edit is named.
    /// </summary>
    ImmutableArray<Edit> CausesOf(Difference difference)
    {
        var causes = Edits.Where(e => Touches(e, difference)).ToImmutableArray();
        return causes.IsEmpty ? Edits : causes;
    }

    bool Touches(Edit edit, Difference difference) => edit.Kind switch
    {
        "rule" when difference.Kind is ChangeKind.LessUrgent or ChangeKind.MoreUrgent or ChangeKind.WhereChanged =>
            Meets(difference.Set, DecidedBy(Old, edit.Name), DecidedBy(New, edit.Name)),
        "rule" => Meets(difference.Set, Matches(Old, edit.Name), Matches(New, edit.Name)),
        "row" => Meets(difference.Set, Treats(Old, edit.Name), Treats(New, edit.Name)),
        "named fact" => Differ(difference.Set, Named(Old, edit.Name), Named(New, edit.Name)),
        "fact" => Differ(difference.Set, Applies(Old, edit.Name), Applies(New, edit.Name)),
        "advice item" or "explanation" => difference.Before.StartsWith(edit.Name, StringComparison.Ordinal),
        "destination" => difference.Kind == ChangeKind.WhereChanged,
        "level" => difference.Kind is ChangeKind.LessUrgent or ChangeKind.MoreUrgent,
        "impossible pair" => difference.Kind is ChangeKind.NewlyImpossible or ChangeKind.NewlyPossible,
        _ => false,
    };

    static int DecidedBy(ProofContext proof, string rule) =>
        proof.Dialog.Rules.FirstOrDefault(r => r.Id == rule) is { Level: not null } found ? proof.DecidedBy(found) : Terminal.False;

    static int Matches(ProofContext proof, string rule) =>
        proof.Dialog.Rules.FirstOrDefault(r => r.Id == rule) is { } found ? proof.Space.Matches[found.Index] : Terminal.False;

    static int Treats(ProofContext proof, string rule) =>
        proof.Dialog.TreatRules.FirstOrDefault(r => r.Id == rule) is { } found ? proof.Space.All(found.Conditions) : Terminal.False;

    static int Named(ProofContext proof, string name) =>
        proof.Dialog.NamedFacts.FirstOrDefault(n => n.Id == name) is { } found ? proof.Space.Composed.NamedOf(found.Index) : Terminal.False;

    static int Applies(ProofContext proof, string name) =>
        proof.Dialog.Facts.FirstOrDefault(f => f.DecidingId == name) is { } found ? proof.Space.Composed.AppliesOf(found.Index) : Terminal.False;

    bool Meets(int set, int before, int after) => Space.And(set, Space.Builder.Or(before, after)) != Terminal.False;

    bool Differ(int set, int before, int after) =>
        before != after && new Pairing(Space).Differing(before, after, (one, other) => one == other).Any(d => Space.And(set, d.Set) != Terminal.False);
}
