using System.Collections.Immutable;
using EarHelp.Storage.Moving;

namespace EarHelp.Storage.Backups;

/// <summary>What a backup holds, as its last line says.</summary>
/// <param name="MadeAt">Year to second, UTC.</param>
/// <param name="Damages">What was damaged in the store already when the backup was made, one sentence each.</param>
public sealed record BackupContent(string MadeAt, ImmutableArray<CountedPart> Parts, ImmutableArray<string> Damages);
