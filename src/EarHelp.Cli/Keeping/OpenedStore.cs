using EarHelp.Cli.Commands;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage;
using EarHelp.Storage.Backups;
using NodaTime;

namespace EarHelp.Cli.Keeping;

/// <summary>The store of a data folder, opened by this command because no service has it; or the database that the environment names.</summary>
sealed class OpenedStore : IAsyncDisposable
{
    readonly IStore _store;

    OpenedStore(IStore store) => _store = store;

    public ITurnStore Turns => _store;

    public IKeptConversations Conversations => _store;

    public IRequestStore Requests => _store.Requests;

    public IEditionArchive Editions => _store;

    public IEditionLedger Ledger => _store;

    public IAuditTrail Audit => _store.Audit;

    public IStaffStore Staff => _store.Staff;

    public IVisitStore Visits => _store.Visits;

    /// <summary>All of it.</summary>
    public IStore Whole => _store;

    /// <exception cref="WrongUseException">Another process has it, or it cannot be opened.</exception>
    public static OpenedStore Open(string folder, Terminal terminal)
    {
        try
        {
            var full = Path.GetFullPath(folder, terminal.Folder);
            return new OpenedStore(StoreOpening.Open(
                full, Environment.GetEnvironmentVariable(StoreOpening.Variable), new StoreOptions { ErasureList = Path.Combine(full, ErasureList.FileName) }));
        }
        catch (StoreFailedException failed)
        {
            throw new WrongUseException(failed.Message, failed);
        }
    }

    /// <summary>Adds to the audit trail what this command is about to read or change.</summary>
    /// <param name="conversation">Null: of no single person.</param>
    public ValueTask AddToAuditAsync(TimeProvider clock, AuditDeed deed, string? conversation, CancellationToken cancellation) =>
        _store.Audit.AddAsync(new AuditEntry(Instant.FromDateTimeOffset(clock.GetUtcNow()), Actor.Terminal, deed, conversation), cancellation);

    /// <summary>Keeps the edition, so that its conversations can be replayed when it is no longer served.</summary>
    public ValueTask KeepAsync(OpenedEdition opened, CancellationToken cancellation) =>
        _store.KeepAsync(opened.Edition.Id, SourcePack.Pack(opened.Sources), cancellation);

    public ValueTask DisposeAsync() => _store.DisposeAsync();
}
