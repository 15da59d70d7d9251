using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Pages;
using EarHelp.Web.Serving;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>
/// The edition that is served, and earlier ones for the conversations that began with them. It is the one that was published last;
/// if none ever was, the one on the disk, which is taken only if it has no fault: else the last good one stays.
/// </summary>
public sealed class ServedEditions(
    ServiceSettings settings, IEditionArchive archive, IEditionLedger ledger, SignedEditions signatures, EmergencyFile emergency, TimeProvider clock)
    : IEditionShelf, IDisposable
{
    readonly SemaphoreSlim _oneAtATime = new(1, 1);
    readonly ConcurrentDictionary<string, ServedEdition> _earlier = new(StringComparer.Ordinal);
    volatile ServedEdition? _current;
    volatile string? _published;

    /// <summary>Null until the first edition without a fault.</summary>
    public ServedEdition? Current => _current;

    /// <summary>The edition that was published last, or null: then the files on the disk are followed.</summary>
    public string? Published => _published;

    ServedEdition IEditionShelf.Current =>
        _current ?? throw new InvalidOperationException("No edition is served yet, so no turn can be taken.");

    /// <summary>Takes up what was served when the service ended: a published edition as it was, else what is on the disk now.</summary>
    public async Task<ImmutableArray<Problem>> StartAsync(CancellationToken cancellation)
    {
        var kept = await Ledger.ReadAsync(ledger, cancellation);
        signatures.Read(kept);
        if (kept.Published is not { } published)
            return await LoadAsync(cancellation);
        var (served, problems) = await CompileKeptAsync(published, CompileOptions.Plain, cancellation);
        _published = published;
        if (served is not null)
            Take(served);
        return problems;
    }

    /// <summary>Compiles what is on the disk, keeps it in the archive and takes it into service, unless an edition was published.</summary>
    /// <returns>Every fault; none if it is served now, or could be.</returns>
    public async Task<ImmutableArray<Problem>> LoadAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            var sources = SourceFolder.Read(settings.Root);
            var compiled = EditionCompiler.Compile(sources, NeededByProgram.On(Today()));
            if (compiled.Edition is not { } edition || compiled.Assessor is not { } assessor)
                return compiled.Problems;
            if (_published is not null || edition.Id == _current?.Edition.Id)
                return [];
            await archive.KeepAsync(edition.Id, SourcePack.Pack(sources), cancellation);
            Take(new ServedEdition(edition, assessor, signatures.IsSigned));
            return [];
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    /// <summary>Adds a deed to the ledger and carries it out at once: what is published is served when this returns.</summary>
    public async Task<AddedDeed> AddAsync(LedgerRecord record, CancellationToken cancellation)
    {
        var deed = Ledger.DeedOf(record);
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            ServedEdition? next = null;
            if (deed.Kind == DeedKind.Published)
            {
                if (!signatures.IsSigned(deed.Edition))
                    return new AddedDeed.NotSigned();
                (next, var problems) = await CompileKeptAsync(deed.Edition, NeededByProgram.On(Today()), cancellation);
                if (next is null)
                    return new AddedDeed.Faulty(problems);
            }

            if (!await ledger.AppendAsync(record, cancellation))
                return new AddedDeed.Stale();
            signatures.Read(await Ledger.ReadAsync(ledger, cancellation));
            if (next is not null)
            {
                _published = deed.Edition;
                Take(next);
            }
            else if (_current is { } current)
            {
                emergency.Keep(Words.First(current));
            }

            return new AddedDeed.Added();
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
        var (found, _) = await CompileKeptAsync(editionId, CompileOptions.Plain, cancellation);
        return found is null ? null : _earlier.GetOrAdd(editionId, found);
    }

    public void Dispose() => _oneAtATime.Dispose();

    /// <summary>Takes an edition into service, for every conversation that begins from now on.</summary>
    void Take(ServedEdition served)
    {
        emergency.Keep(Words.First(served));
        if (_current is { } before)
            _earlier[before.Edition.Id] = before;
        _current = served;
    }

    async ValueTask<(ServedEdition? Served, ImmutableArray<Problem> Problems)> CompileKeptAsync(string id, CompileOptions options, CancellationToken cancellation)
    {
        if (await archive.FindAsync(id, cancellation) is not { } pack)
            return (null, []);
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), options);
        return compiled is { Edition: { } edition, Assessor: { } assessor } && edition.Id == id
            ? (new ServedEdition(edition, assessor, signatures.IsSigned), [])
            : (null, compiled.Problems);
    }

    /// <summary>In UTC: the day only tells whether the holidays are known far enough.</summary>
    LocalDate Today() => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
