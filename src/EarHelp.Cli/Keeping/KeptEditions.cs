using EarHelp.Cli.Commands;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Keeping;

/// <summary>The editions and the ledger of a data folder: asked of the service that has it, else opened here.</summary>
sealed class KeptEditions : IAsyncDisposable
{
    readonly Terminal _terminal;
    readonly RunningService? _service;
    readonly OpenedStore? _store;

    KeptEditions(Terminal terminal, RunningService? service, OpenedStore? store)
    {
        (_terminal, _service, _store) = (terminal, service, store);
        var remote = service is null ? null : new EditionsInService(service);
        Archive = remote ?? store!.Editions;
        Entries = remote ?? store!.Ledger;
    }

    public IEditionArchive Archive { get; }

    public IEditionLedger Entries { get; }

    public bool IsRunning => _service is not null;

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
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.Plain);
        foreach (var problem in compiled.Problems)
            await _terminal.Error.WriteLineAsync(problem.ToString()).ConfigureAwait(false);
        return compiled.Edition;
    }

    public ValueTask<Ledger> LedgerAsync(CancellationToken cancellation) => Ledger.ReadAsync(Entries, cancellation);

    /// <exception cref="WrongUseException">Somebody else was quicker.</exception>
    public async Task AddAsync(Ledger ledger, Deed deed, CancellationToken cancellation)
    {
        if (!await Entries.AppendAsync(ledger.Next(deed), cancellation).ConfigureAwait(false))
            throw new WrongUseException("somebody else signed or published at the same moment. Look again, and call this again.");
    }

    public async ValueTask DisposeAsync()
    {
        _service?.Dispose();
        if (_store is not null)
            await _store.DisposeAsync().ConfigureAwait(false);
    }
}
