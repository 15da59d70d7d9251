using System.Collections.Immutable;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Mutating;

/// <summary>Changes an edition's decisions one small step at a time, and looks who notices.</summary>
/// <param name="examples">True if an example patient comes out otherwise than it must. Called by several threads.</param>
public sealed class MutationRun(Edition original, Func<Dialog, Assessor, bool> examples)
{
    /// <param name="told">Is given the number of mutants done so far.</param>
    public MutationReport Of(ImmutableArray<Mutant> mutants, Action<int>? told = null, CancellationToken cancellation = default)
    {
        var fates = new MutantFate[mutants.Length];
        var (next, done) = (-1, 0);
        var workers = Math.Max(1, Math.Min(Environment.ProcessorCount, mutants.Length));
        Parallel.For(0, workers, new ParallelOptions { MaxDegreeOfParallelism = workers, CancellationToken = cancellation }, _ =>
        {
            var space = new MutantSpace(original.Dialog, FactNames.Of(original));
            for (var i = Interlocked.Increment(ref next); i < mutants.Length; i = Interlocked.Increment(ref next))
            {
                cancellation.ThrowIfCancellationRequested();
                fates[i] = FateOf(mutants[i], space);
                told?.Invoke(Interlocked.Increment(ref done));
            }
        });
        return new MutationReport([.. fates]);
    }

    MutantFate FateOf(Mutant mutant, MutantSpace space)
    {
        if (space.EffectOf(mutant) is not { } effect)
            return new MutantFate(mutant, Noticed.Equivalent, null);
        try
        {
            var noticed = examples(mutant.Dialog, Assessor.Build(mutant.Dialog)) ? Noticed.ByExample
                : NoticedBy.AProperty(original, mutant) ? Noticed.ByProperty
                : Noticed.ByNothing;
            return new MutantFate(mutant, noticed, effect);
        }
        catch (DiagramLimitException)
        {
            // An edition that is too large to be compiled is a fault that the check reports.
            return new MutantFate(mutant, Noticed.ByProperty, effect);
        }
    }
}

/// <summary>What became of the mutants.</summary>
public sealed record MutationReport(ImmutableArray<MutantFate> Fates)
{
    public ImmutableArray<MutantFate> Survivors => [.. Fates.Where(f => f.Noticed == Noticed.ByNothing).OrderBy(f => f.Effect!.Kind)];

    /// <summary>Survivors that lower somebody's urgency or widen advice.</summary>
    public ImmutableArray<MutantFate> Dangerous => [.. Survivors.Where(f => f.Effect!.IsDangerous)];

    public int Count(Noticed noticed) => Fates.Count(f => f.Noticed == noticed);

    /// <summary>One line in figures.</summary>
    public string Summary => FormattableString.Invariant(
        $"{Fates.Length} mutants: {Count(Noticed.ByExample)} noticed by an example patient, {Count(Noticed.ByProperty)} by a property alone, {Count(Noticed.ByNothing)} by neither ({Dangerous.Length} of them lower urgency or widen advice); {Count(Noticed.Equivalent)} change nothing for anyone.");
}

/// <param name="Effect">Null if it changes nothing for anyone.</param>
public sealed record MutantFate(Mutant Mutant, Noticed Noticed, MutantEffect? Effect)
{
    /// <summary>For a survivor: what it does, and which example is missing.</summary>
    public override string ToString() => Effect is null
        ? $"{Mutant}: nothing changes for anyone"
        : $"{Mutant}: {(Effect.Kind switch { MutantEffectKind.LowersUrgency => "lowers urgency", MutantEffectKind.WidensAdvice => "widens advice", _ => "changes something" })}. "
            + $"Missing example: {Effect.Shown.InWords} (now \"{Effect.LevelBefore}\", then \"{Effect.LevelAfter}\").";
}

public enum Noticed
{
    /// <summary>Its result diagrams are identical to the original's.</summary>
    Equivalent,

    ByExample,

    ByProperty,

    ByNothing,
}
