using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Pages;
using EarHelp.Web.Serving;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>
/// The edition that is served, and earlier ones for the conversations that began with them. What is on the disk is taken only if
/// it has no fault; else the last good one stays.
/// </summary>
public sealed class ServedEditions(ServiceSettings settings, IEditionArchive archive, EmergencyFile emergency, TimeProvider clock)
    : IEditionShelf, IDisposable
{
    readonly SemaphoreSlim _oneAtATime = new(1, 1);
    readonly ConcurrentDictionary<string, ServedEdition> _earlier = new(StringComparer.Ordinal);
    volatile ServedEdition? _current;

    /// <summary>Null until the first edition without a fault.</summary>
    public ServedEdition? Current => _current;

    ServedEdition IEditionShelf.Current =>
        _current ?? throw new InvalidOperationException("No edition is served yet, so no turn can be taken.");

    /// <summary>Compiles what is on the disk, keeps it in the archive and takes it into service.</summary>
    /// <returns>Every fault; none if it is served now.</returns>
    public async Task<ImmutableArray<Problem>> LoadAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            var sources = SourceFolder.Read(settings.Root);
            var compiled = EditionCompiler.Compile(sources, NeededByProgram.On(Today()));
            if (compiled.Edition is not { } edition || compiled.Assessor is not { } assessor)
                return compiled.Problems;
            if (edition.Id == _current?.Edition.Id)
                return [];
            await archive.KeepAsync(edition.Id, SourcePack.Pack(sources), cancellation);
            var served = new ServedEdition(edition, assessor);
            emergency.Keep(Words.First(served));
            if (_current is { } before)
                _earlier[before.Edition.Id] = before;
            _current = served;
            return [];
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    public async ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation)
    {
        if (_current is { } current && current.Edition.Id == editionId)
            return current;
        if (_earlier.TryGetValue(editionId, out var known))
            return known;
        if (await archive.FindAsync(editionId, cancellation) is not { } pack)
            return null;
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.Plain);
        return compiled.Edition is { } edition && edition.Id == editionId && compiled.Assessor is { } assessor
            ? _earlier.GetOrAdd(editionId, new ServedEdition(edition, assessor))
            : null;
    }

    public void Dispose() => _oneAtATime.Dispose();

    /// <summary>In UTC: the day only tells whether the holidays are known far enough.</summary>
    LocalDate Today() => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
