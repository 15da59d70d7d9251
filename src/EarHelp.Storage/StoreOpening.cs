using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Disk;
using EarHelp.Storage.Postgres;

namespace EarHelp.Storage;

/// <summary>Opens the store that the settings name.</summary>
public static class StoreOpening
{
    /// <summary>The setting that names a database: <c>--store</c>, or this variable of the environment.</summary>
    public const string Variable = "EARHELP_STORE";

    /// <param name="dataFolder">Holds the store unless a database is named.</param>
    /// <param name="database">How to reach a PostgreSQL database, <c>Host=...;Database=...;Username=...</c>; null or empty: LiteDB in the data folder.</param>
    /// <exception cref="StoreFailedException">It cannot be opened; says why, and what to do.</exception>
    public static IStore Open(string dataFolder, string? database, StoreOptions options) => string.IsNullOrWhiteSpace(database)
        ? LiteTurnStore.Open(dataFolder, options)
        : PostgresStore.Open(database, options);

    /// <summary>True if a store is named by how to reach a database, and not by a folder.</summary>
    public static bool IsDatabase(string store)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Contains('=', StringComparison.Ordinal);
    }

    /// <param name="store">A data folder, or how to reach a PostgreSQL database.</param>
    /// <exception cref="StoreFailedException">It cannot be opened; says why, and what to do.</exception>
    public static IStore Open(string store, StoreOptions options) => IsDatabase(store) ? PostgresStore.Open(store, options) : LiteTurnStore.Open(store, options);

    /// <summary>True if a data folder holds a store already.</summary>
    public static bool IsThere(string dataFolder) => File.Exists(new StoreFolder(dataFolder).Main);
}
