namespace EarHelp.Storage.Moving;

/// <summary>A store as rows, given and taken as a whole.</summary>
interface IWholeStore : IRowSource
{
    /// <summary>Keeps every service away from the store until what is given is disposed of.</summary>
    /// <exception cref="Conversation.Keeping.StoreFailedException">A service uses it.</exception>
    ValueTask<IAsyncDisposable> HoldAloneAsync(CancellationToken cancellation);

    /// <summary>Takes rows in the order in which a source gives them and reads them back; they are kept for good only if both tallies are the same.</summary>
    /// <param name="given">Counts the rows as they are given.</param>
    /// <exception cref="Conversation.Keeping.StoreFailedException">It is not empty, or cannot take them; nothing is changed.</exception>
    Task FillAsync(IAsyncEnumerable<Row> rows, Tally given, CancellationToken cancellation);
}
