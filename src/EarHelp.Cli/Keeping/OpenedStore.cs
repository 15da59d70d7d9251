using EarHelp.Cli.Commands;
using EarHelp.Clinic.Keeping;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage;

namespace EarHelp.Cli.Keeping;

/// <summary>The store of a data folder, opened by this command because no service has it.</summary>
sealed class OpenedStore : IAsyncDisposable
{
    readonly LiteTurnStore _store;

    OpenedStore(LiteTurnStore store) => _store = store;

    public ITurnStore Turns => _store;

    public IKeptConversations Conversations => _store;

    public IRequestStore Requests => _store.Requests;

    public IEditionArchive Editions => _store;

    public IEditionLedger Ledger => _store;

    /// <exception cref="WrongUseException">Another process has it, or it cannot be opened.</exception>
    public static OpenedStore Open(string folder, Terminal terminal)
    {
        try
        {
            return new OpenedStore(LiteTurnStore.Open(Path.GetFullPath(folder, terminal.Folder), new StoreOptions()));
        }
        catch (StoreFailedException failed)
        {
            throw new WrongUseException(failed.Message, failed);
        }
    }

    /// <summary>Keeps the edition, so that its conversations can be replayed when it is no longer served.</summary>
    public ValueTask KeepAsync(OpenedEdition opened, CancellationToken cancellation) =>
        _store.KeepAsync(opened.Edition.Id, SourcePack.Pack(opened.Sources), cancellation);

    public ValueTask DisposeAsync() => _store.DisposeAsync();
}
