using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;

namespace EarHelp.Web.Serving;

/// <summary>Makes room for the control socket before the service listens, and says where it serves once it does.</summary>
public sealed class Doorstep(ServiceSettings settings, IServer server) : IHostedLifecycleService
{
    public Task StartingAsync(CancellationToken cancellationToken)
    {
        ControlSocket.Clear(settings.Data);
        return Task.CompletedTask;
    }

    public async Task StartedAsync(CancellationToken cancellationToken)
    {
        ControlSocket.Close(settings.Data);
        foreach (var address in server.Features.GetRequiredFeature<IServerAddressesFeature>().Addresses)
        {
            if (!address.StartsWith("http://unix:", StringComparison.Ordinal))
                await Console.Out.WriteLineAsync($"EarHelp serves patients at {address}; what it keeps is in {settings.Data}");
        }
    }

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken)
    {
        ControlSocket.Clear(settings.Data);
        return Task.CompletedTask;
    }
}
