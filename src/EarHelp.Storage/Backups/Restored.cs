using System.Collections.Immutable;
using EarHelp.Storage.Moving;

namespace EarHelp.Storage.Backups;

/// <summary>What was brought back from a backup.</summary>
/// <param name="Parts">As counted in the store.</param>
/// <param name="Erased">Conversations of the backup that were left out because they were erased after it was made.</param>
public sealed record Restored(BackupContent Content, ImmutableArray<CountedPart> Parts, ImmutableArray<string> Erased);
