using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Withdrawing;
using EarHelp.Web.Pages;
using EarHelp.Web.Serving;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>
/// The edition that is served, and earlier ones for the conversations that began with them. It is the one that was published last, and
/// no other in its place; if none was, the one on the disk, which is taken only if it has no fault: else the last good one stays.
/// </summary>
public sealed class ServedEditions(ServiceSettings settings, IEditionArchive archive, LedgerInForce ledger, EmergencyFile emergency, ClosedAtOnce closed, TimeProvider clock)
    : IEditionShelf, IDisposable
{
    readonly SemaphoreSlim _oneAtATime = new(1, 1);
    readonly ConcurrentDictionary<string, ServedEdition> _earlier = new(StringComparer.Ordinal);
    volatile ServedEdition? _current;
    volatile Moment? _servedSince;

    /// <summary>Null until the first edition without a fault.</summary>
    public ServedEdition? Current => _current;

    /// <summary>The edition that was published last, or null: then the files on the disk are followed.</summary>
    public string? Published => ledger.Ledger.Published;

    public Withdrawals Withdrawn => ledger.Withdrawn;

    /// <summary>When this process took up what it serves; null: it serves none.</summary>
    public DateTimeOffset? ServedSince => _servedSince?.At;

    ServedEdition IEditionShelf.Current =>
        _current ?? throw new InvalidOperationException("No edition is served yet, so no turn can be taken.");

    /// <summary>
    /// Takes up what was served when the service ended: a published edition as it was, else what is on the disk now. A published edition
    /// that is not kept any more is taken from the disk if the files there are the very same; else none is served.
    /// </summary>
    public async Task<ImmutableArray<Problem>> StartAsync(CancellationToken cancellation)
    {
        await ledger.ReadAsync(cancellation);
        await closed.ReadAsync(cancellation);
        if (Published is not { } published)
            return await LoadAsync(cancellation);
        var (served, problems) = await CompileKeptAsync(published, CompileOptions.InService, cancellation);
        if (served is not null)
            Take(served);
        else
            await LoadAsync(cancellation);
        return problems;
    }

    /// <summary>Compiles what is on the disk, keeps it in the archive and takes it into service, unless another edition was published.</summary>
    /// <returns>Every fault; none if it is served now, or could be.</returns>
    public async Task<ImmutableArray<Problem>> LoadAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            return await LoadAloneAsync(cancellation);
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    /// <summary>Takes up what stands in the ledger now: another node may have published an edition or withdrawn something.</summary>
    public async Task FollowAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            var before = ledger.Ledger.LastHash;
            await ledger.ReadAsync(cancellation);
            if (ledger.Ledger.LastHash == before && ledger.Damage is null)
                return;
            if (Published is not { } published)
                await LoadAloneAsync(cancellation);
            else if (published != _current?.Edition.Id && await FindAsync(published, cancellation) is { } next)
                Take(next);
            else if (_current is { } current)
                emergency.Keep(Words.First(current));
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    /// <summary>Has the edition that was signed last at hand, so that it is served at once when it is published at any node.</summary>
    /// <returns>Which one; null: none was signed, it was at hand already, or it is not kept.</returns>
    public async Task<string?> PrepareAsync(CancellationToken cancellation) =>
        ledger.Ledger.LastSigned is { } signed && signed != _current?.Edition.Id && !_earlier.ContainsKey(signed) && await FindAsync(signed, cancellation) is not null ? signed : null;

    /// <summary>Adds a deed that was found right to the ledger and carries it out at once: what is published is served when this returns.</summary>
    /// <param name="known">The ledger after which it comes.</param>
    internal async Task<AddedDeed> CarryOutAsync(Ledger known, Deed deed, CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            ServedEdition? next = null;
            if (deed.Kind == DeedKind.Published)
            {
                (next, var problems) = await CompileKeptAsync(deed.Edition, NeededByProgram.On(Today()), cancellation);
                if (next is null)
                    return new AddedDeed.Faulty(problems);
            }

            if (!await ledger.AddAsync(known, deed, cancellation))
                return new AddedDeed.Stale();
            if (next is not null)
                Take(next);
            else if (deed.Kind == DeedKind.FilesFollowed)
                await LoadAloneAsync(cancellation);
            else if (_current is { } current)
                emergency.Keep(Words.First(current));
            return new AddedDeed.Added();
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    public bool IsSuperseded(string editionId) =>
        ledger.IsSuperseded(editionId) && _current is { } current && current.Edition.Id != editionId && !ledger.IsSuperseded(current.Edition.Id);

    public async ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation)
    {
        if (_current is { } current && current.Edition.Id == editionId)
            return current;
        if (_earlier.TryGetValue(editionId, out var known))
            return known;
        var (found, _) = await CompileKeptAsync(editionId, CompileOptions.InService, cancellation);
        return found is null ? null : _earlier.GetOrAdd(editionId, found);
    }

    public void Dispose() => _oneAtATime.Dispose();

    async Task<ImmutableArray<Problem>> LoadAloneAsync(CancellationToken cancellation)
    {
        var sources = SourceFolder.Read(settings.Root);
        var compiled = EditionCompiler.Compile(sources, NeededByProgram.On(Today()));
        if (compiled.Edition is not { } edition || compiled.Assessor is not { } assessor)
            return compiled.Problems;
        if ((Published is { } published && published != edition.Id) || edition.Id == _current?.Edition.Id)
            return [];
        await archive.KeepAsync(edition.Id, SourcePack.Pack(sources), cancellation);
        Take(new ServedEdition(edition, assessor, ledger.IsSigned, closed.All, ledger.IsInvented));
        return [];
    }

    /// <summary>Takes an edition into service, for every conversation that begins from now on.</summary>
    void Take(ServedEdition served)
    {
        emergency.Keep(Words.First(served));
        if (_current is { } before)
            _earlier[before.Edition.Id] = before;
        _current = served;
        _servedSince = new Moment(clock.GetUtcNow());
    }

    async ValueTask<(ServedEdition? Served, ImmutableArray<Problem> Problems)> CompileKeptAsync(string id, CompileOptions options, CancellationToken cancellation)
    {
        if (await archive.FindAsync(id, cancellation) is not { } pack)
            return (null, []);
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), options);
        return compiled is { Edition: { } edition, Assessor: { } assessor } && edition.Id == id
            ? (new ServedEdition(edition, assessor, ledger.IsSigned, closed.All, ledger.IsInvented), [])
            : (null, compiled.Problems);
    }

    sealed record Moment(DateTimeOffset At);

    /// <summary>In UTC: the day only tells whether the holidays are known far enough.</summary>
    LocalDate Today() => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
