using System.Net.Sockets;

namespace EarHelp.Servers.Host;

/// <summary>A client of the socket in a service's data folder, as the command line is one.</summary>
public static class SocketClient
{
    public static HttpClient To(string socket) => new(new SocketsHttpHandler
    {
        ConnectCallback = async (_, cancellation) =>
        {
            var connection = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
            await connection.ConnectAsync(new UnixDomainSocketEndPoint(socket), cancellation);
            return new NetworkStream(connection, ownsSocket: true);
        },
    })
    {
        BaseAddress = new Uri("http://socket"),
    };
}
