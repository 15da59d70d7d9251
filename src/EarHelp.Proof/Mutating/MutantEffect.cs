using EarHelp.Proof.Patients;

namespace EarHelp.Proof.Mutating;

/// <summary>What a mutant does.</summary>
/// <param name="Shown">The smallest patient to whom it does it.</param>
/// <param name="LevelBefore">The patient's level in the original.</param>
public sealed record MutantEffect(MutantEffectKind Kind, ExamplePatient Shown, string LevelBefore, string LevelAfter)
{
    public bool IsDangerous => Kind is MutantEffectKind.LowersUrgency or MutantEffectKind.WidensAdvice;
}

/// <summary>The most dangerous first.</summary>
public enum MutantEffectKind
{
    LowersUrgency,

    /// <summary>More people are shown something to do, or fewer something that protects or warns, or more are let treat.</summary>
    WidensAdvice,

    Other,
}
