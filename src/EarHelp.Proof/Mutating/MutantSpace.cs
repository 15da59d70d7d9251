using System.Collections.Immutable;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Mutating;

/// <summary>
/// The original and one mutant after another in one space of patients, so that what they have in common is worked out once and equal
/// results are equal nodes. The values of a number are told apart one step on both sides of every bound as well.
/// </summary>
sealed class MutantSpace
{
    /// <summary>A new space is begun past this many nodes.</summary>
    const int Crowded = 1_500_000;

    readonly Dialog _original;
    readonly FactNames _names;
    readonly ImmutableArray<ValueClasses> _classes;
    ProofSpace _space;
    Results _was;

    public MutantSpace(Dialog original, FactNames names)
    {
        (_original, _names) = (original, names);
        _classes = [.. original.Facts.Select(f => ValueClasses.Split(f.Values.Count, [.. DialogDiagrams.ToldOf(original, f.Index).SelectMany(Around)]))];
        (_space, _was) = Begin();
    }

    /// <summary>What the mutant does to somebody, the most dangerous first; null: nothing to anybody.</summary>
    public MutantEffect? EffectOf(Mutant mutant)
    {
        if (_space.Builder.Nodes.Count > Crowded)
            (_space, _was) = Begin();
        var now = Results.Of(_space.Beside(mutant.Dialog), mutant.Dialog);
        foreach (var (kind, set) in _was.Changes(now, _space))
        {
            if (set != Terminal.False)
                return Tell(kind, set, now);
        }

        return null;
    }

    MutantEffect Tell(MutantEffectKind kind, int set, Results now)
    {
        var (classes, asked) = new SmallestPatient(_space, _names).PathIn(set);
        return new MutantEffect(kind, new SmallestPatient(_space, _names).Told(classes, asked), LevelOf(_was, classes), LevelOf(now, classes));
    }

    string LevelOf(Results results, int[] classes)
    {
        var end = _space.EndOf(results.Level, classes);
        return end == Terminal.Impossible ? "not possible" : _original.Levels[Terminal.ValueOf(end)].Id;
    }

    (ProofSpace, Results) Begin()
    {
        var space = ProofSpace.Together([_original], _classes, 2 * Crowded)[0];
        return (space, Results.Of(space, _original));
    }

    static IEnumerable<ValueSet> Around(ValueSet told) =>
        told.Ranges.SelectMany(r => new[] { r.First - 1, r.First, r.First + 1, r.Last, r.Last + 1, r.Last + 2 }).Where(b => b > 0).Select(b => ValueSet.Between(0, b - 1)).Append(told);
}
