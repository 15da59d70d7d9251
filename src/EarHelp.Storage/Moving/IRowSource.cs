namespace EarHelp.Storage.Moving;

/// <summary>Gives everything that is kept somewhere, part by part in the order of <see cref="Part.All"/>; turns conversation by conversation, chains in order.</summary>
interface IRowSource
{
    /// <exception cref="Conversation.Keeping.StoreFailedException">It cannot be read.</exception>
    IAsyncEnumerable<Row> ReadAsync(CancellationToken cancellation);
}
