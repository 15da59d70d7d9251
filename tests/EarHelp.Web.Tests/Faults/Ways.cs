using System.Net;
using System.Net.Security;
using System.Net.Sockets;

namespace EarHelp.Web.Tests.Faults;

/// <summary>How the tests reach a service.</summary>
static class Ways
{
    /// <summary>Longer than a proxy waits for a node that says nothing.</summary>
    static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>For many people at once, each of whom keeps their own cookie; the proxy of a test signs for itself.</summary>
    public static HttpClient NewClient(Uri service)
    {
        var connections = new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false };
        connections.SslOptions.RemoteCertificateValidationCallback = (_, _, _, errors) => !errors.HasFlag(SslPolicyErrors.RemoteCertificateNotAvailable);
        return new HttpClient(connections) { BaseAddress = service, Timeout = Patience };
    }

    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
