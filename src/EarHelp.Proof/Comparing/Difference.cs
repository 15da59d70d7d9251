namespace EarHelp.Proof.Comparing;

/// <summary>A set of patients for whom one thing changes.</summary>
/// <param name="Set">Patients, as a diagram.</param>
readonly record struct Difference(ChangeKind Kind, int Set, string Before, string? After, int Steps);
