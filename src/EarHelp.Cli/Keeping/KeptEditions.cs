using EarHelp.Cli.Commands;
using EarHelp.Clinic.Auditing;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Searching;
using EarHelp.Conversation.Signing;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Keeping;

/// <summary>The editions and the ledger of a data folder: asked of the service that has it, else opened here.</summary>
sealed class KeptEditions : IAsyncDisposable
{
    internal const string SomebodyWasQuicker = "somebody else did something about an edition at the same moment. Look again, and call this again.";

    readonly Terminal _terminal;
    readonly RunningService? _service;
    readonly EditionsInService? _remote;
    readonly OpenedStore? _store;

    KeptEditions(Terminal terminal, RunningService? service, OpenedStore? store)
    {
        (_terminal, _service, _store) = (terminal, service, store);
        _remote = service is null ? null : new EditionsInService(service);
    }

    public bool IsRunning => _service is not null;

    IEditionArchive Archive => _remote ?? _store!.Editions;

    /// <exception cref="WrongUseException">The store cannot be opened.</exception>
    public static KeptEditions Open(string folder, Terminal terminal)
    {
        var service = RunningService.Find(folder);
        return new KeptEditions(terminal, service, service is null ? OpenedStore.Open(folder, terminal) : null);
    }

    /// <summary>The edition of a folder, which is kept from now on, or a kept one by its identifier; null after its faults were written.</summary>
    /// <exception cref="WrongUseException">There is neither such a folder nor such an edition.</exception>
    public async Task<Edition?> OpenAsync(string name, CancellationToken cancellation)
    {
        if (!Directory.Exists(Path.GetFullPath(name, _terminal.Folder)))
            return await FindAsync(name, cancellation).ConfigureAwait(false);
        if (OpenedEdition.Open(name, _terminal) is not { } opened)
            return null;
        await Archive.KeepAsync(opened.Edition.Id, SourcePack.Pack(opened.Sources), cancellation).ConfigureAwait(false);
        return opened.Edition;
    }

    /// <summary>A kept edition; null after its faults were written.</summary>
    /// <exception cref="WrongUseException">There is none.</exception>
    public async Task<Edition?> FindAsync(string id, CancellationToken cancellation)
    {
        var pack = await Archive.FindAsync(id, cancellation).ConfigureAwait(false)
            ?? throw new WrongUseException($"\"{id}\" is no folder here and no edition that is kept; write its whole identifier.");
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.InService);
        foreach (var problem in compiled.Problems)
            await _terminal.Error.WriteLineAsync(problem.ToString()).ConfigureAwait(false);
        return compiled.Edition;
    }

    /// <summary>What a running service serves; null: none runs, or it serves none.</summary>
    public async Task<string?> ServedAsync(CancellationToken cancellation) =>
        _remote is null ? null : await _remote.ServedAsync(cancellation).ConfigureAwait(false);

    /// <exception cref="WrongUseException">It is damaged.</exception>
    public async Task<Ledger> LedgerAsync(CancellationToken cancellation)
    {
        try
        {
            return _remote is null
                ? await Ledger.ReadAsync(_store!.Ledger, cancellation).ConfigureAwait(false)
                : Ledger.Of(await _remote.ReadAsync(cancellation).ConfigureAwait(false));
        }
        catch (LedgerDamagedException damaged)
        {
            throw new WrongUseException(damaged.Message, damaged);
        }
    }

    /// <summary>Keeps a deed; a running service looks first whether it holds, and carries it out.</summary>
    /// <returns>Null, or why a running service refuses it.</returns>
    /// <exception cref="WrongUseException">Somebody else was quicker.</exception>
    public async Task<string?> AddAsync(Ledger ledger, Deed deed, CancellationToken cancellation)
    {
        if (_remote is not null)
            return await _remote.AddAsync(ledger, deed, cancellation).ConfigureAwait(false);
        return await _store!.Ledger.AppendAsync(ledger.Next(deed), cancellation).ConfigureAwait(false)
            ? null
            : throw new WrongUseException(SomebodyWasQuicker);
    }

    /// <summary>Who was told something by a rule of an edition.</summary>
    public async Task<Recall> AffectedAsync(string edition, string rule, TimeProvider clock, CancellationToken cancellation)
    {
        if (_remote is not null)
            return await _remote.AffectedAsync(edition, rule, cancellation).ConfigureAwait(false);
        await _store!.AddToAuditAsync(clock, AuditDeed.ListedAffected, null, cancellation).ConfigureAwait(false);
        return await RecallSearch.FindAsync(_store.Conversations, _store.Turns, edition, rule, cancellation).ConfigureAwait(false);
    }

    public async ValueTask DisposeAsync()
    {
        _service?.Dispose();
        if (_store is not null)
            await _store.DisposeAsync().ConfigureAwait(false);
    }
}
