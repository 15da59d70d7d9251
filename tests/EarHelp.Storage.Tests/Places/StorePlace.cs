namespace EarHelp.Storage.Tests.Places;

/// <summary>Where a store is kept, for tests that every store must pass.</summary>
public abstract class StorePlace : IAsyncDisposable
{
    /// <summary>Opens it, again too.</summary>
    public abstract IStore Open();

    /// <summary>True if what can be read there holds the text: any byte of any file, or any row of any table.</summary>
    public abstract Task<bool> HoldsAsync(string text);

    /// <summary>Changes a record of a chain behind the store's back, or takes it out. The store is closed.</summary>
    /// <param name="body">Null: it is taken out.</param>
    public abstract Task TamperAsync(string chain, int number, byte[]? body);

    public abstract ValueTask DisposeAsync();
}
