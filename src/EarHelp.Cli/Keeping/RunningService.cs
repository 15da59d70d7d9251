using System.Net.Sockets;

namespace EarHelp.Cli.Keeping;

/// <summary>The service that has the store of a data folder, asked over the socket in that folder.</summary>
sealed class RunningService : IDisposable
{
    const string SocketName = "earhelp.sock";

    readonly HttpClient _client;

    RunningService(string socket) => _client = new HttpClient(new SocketsHttpHandler
    {
        ConnectCallback = async (_, cancellation) =>
        {
            var connection = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
            await connection.ConnectAsync(new UnixDomainSocketEndPoint(socket), cancellation).ConfigureAwait(false);
            return new NetworkStream(connection, ownsSocket: true);
        },
    })
    {
        Timeout = Timeout.InfiniteTimeSpan,
        BaseAddress = new Uri("http://localhost/"),
    };

    /// <summary>Null if no service answers: then the command opens the store itself.</summary>
    public static RunningService? Find(string dataFolder)
    {
        var path = Path.Combine(dataFolder, SocketName);
        if (!File.Exists(path))
            return null;
        try
        {
            using var probe = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
            probe.Connect(new UnixDomainSocketEndPoint(path));
            return new RunningService(path);
        }
        catch (SocketException)
        {
            return null;
        }
    }

    /// <returns>The status and the bytes of the answer.</returns>
    public async Task<(int Status, byte[] Bytes)> SendAsync(HttpMethod method, string path, HttpContent? content, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative)) { Content = content };
        using var answer = await _client.SendAsync(request, cancellation).ConfigureAwait(false);
        return ((int)answer.StatusCode, await answer.Content.ReadAsByteArrayAsync(cancellation).ConfigureAwait(false));
    }

    /// <returns>The status and the text of the answer.</returns>
    public async Task<(int Status, string Text)> AskAsync(HttpMethod method, string path, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative));
        using var answer = await _client.SendAsync(request, cancellation).ConfigureAwait(false);
        return ((int)answer.StatusCode, await answer.Content.ReadAsStringAsync(cancellation).ConfigureAwait(false));
    }

    /// <summary>Copies an answer as it comes.</summary>
    /// <exception cref="HttpRequestException">The service refused, or ended before the answer did.</exception>
    public async Task CopyAsync(string path, Stream to, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(path, UriKind.Relative));
        using var answer = await _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancellation).ConfigureAwait(false);
        answer.EnsureSuccessStatusCode();
        await answer.Content.CopyToAsync(to, cancellation).ConfigureAwait(false);
    }

    public void Dispose() => _client.Dispose();
}
