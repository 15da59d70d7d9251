using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Pages;
using EarHelp.Web.Serving;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>Which edition is served. What is on the disk is taken only if it has no fault; else the last good one stays.</summary>
public sealed class ServedEditions(
    ServiceSettings settings, IEditionArchive archive, EmergencyFile emergency, TimeProvider clock) : IDisposable
{
    readonly SemaphoreSlim _oneAtATime = new(1, 1);
    volatile ServedEdition? _current;

    /// <summary>Null until the first edition without a fault.</summary>
    public ServedEdition? Current => _current;

    /// <summary>Compiles what is on the disk, keeps it in the archive and takes it into service.</summary>
    /// <returns>Every fault; none if it is served now.</returns>
    public async Task<ImmutableArray<Problem>> LoadAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            var sources = SourceFolder.Read(settings.Root);
            var compiled = EditionCompiler.Compile(sources, new CompileOptions(Today(), NeededWords.Texts, NeededWords.Pages));
            if (compiled.Edition is not { } edition || compiled.Assessor is not { } assessor)
                return compiled.Problems;
            await archive.KeepAsync(edition.Id, SourcePack.Pack(sources), cancellation);
            var served = new ServedEdition(edition, assessor, Words.First(edition));
            emergency.Keep(served.Words);
            _current = served;
            return [];
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    public void Dispose() => _oneAtATime.Dispose();

    /// <summary>In UTC: the day only tells whether the holidays are known far enough.</summary>
    LocalDate Today() => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
