using System.Net;
using System.Net.Sockets;
using EarHelp.Servers.Host;
using EarHelp.Storage;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>Two processes of the service on one PostgreSQL database, behind nginx.</summary>
public sealed class TwoNodes : IAsyncLifetime
{
    public Node First { get; private set; } = null!;

    public Node Second { get; private set; } = null!;

    public NginxProxy Proxy { get; } = new();

    /// <summary>The store as a third node has it.</summary>
    public IStore Store { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        var database = await PostgresServer.NewSchemaAsync();
        (First, Second) = (new Node(database, FreePort()), new Node(database, FreePort()));
        await Task.WhenAll(First.StartAsync(), Second.StartAsync());
        await Proxy.StartAsync(FreePort(), First.Address, Second.Address);
        Store = StoreOpening.Open(database, new StoreOptions());
    }

    public async Task DisposeAsync()
    {
        await Store.DisposeAsync();
        await Proxy.DisposeAsync();
        await First.DisposeAsync();
        await Second.DisposeAsync();
    }

    /// <summary>Waits until something is so, for a second at the most: the limit within which every node must know.</summary>
    public static async Task<bool> WithinASecondAsync(Func<Task<bool>> isSo)
    {
        ArgumentNullException.ThrowIfNull(isSo);
        for (var from = TimeProvider.System.GetTimestamp(); ;)
        {
            if (await isSo())
                return true;
            if (TimeProvider.System.GetElapsedTime(from) > TimeSpan.FromSeconds(1))
                return false;
            await Task.Delay(20);
        }
    }

    static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
