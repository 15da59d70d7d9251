using EarHelp.Storage.Tests.Places;

namespace EarHelp.Storage.Tests;

/// <summary>A store that is opened for a test, and can be opened again.</summary>
public abstract class StoreContract(Func<Task<StorePlace>> make) : IAsyncLifetime
{
    protected StorePlace Place { get; private set; } = null!;

    protected IStore Opened { get; private set; } = null!;

    public virtual async Task InitializeAsync()
    {
        Place = await make();
        Opened = Place.Open();
    }

    public async Task DisposeAsync()
    {
        await Opened.DisposeAsync();
        await Place.DisposeAsync();
    }

    protected async Task OpenAgainAsync(Func<Task>? between = null)
    {
        await Opened.DisposeAsync();
        if (between is not null)
            await between();
        Opened = Place.Open();
    }

    protected static async Task<StorePlace> LiteAsync() => await Task.FromResult(new LitePlace());

    protected static async Task<StorePlace> PostgresAsync() => await PostgresPlace.MakeAsync();
}
