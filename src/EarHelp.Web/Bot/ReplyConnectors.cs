using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using System.Net.Http.Headers;
using Microsoft.Bot.Connector;
using Microsoft.Bot.Connector.Authentication;
using Microsoft.Rest;

namespace EarHelp.Web.Bot;

/// <summary>Makes the connections that replies go out by: to addresses of the list and to no other, whoever asks.</summary>
/// <param name="tokenFile">Holds the bearer token that replies carry, read for each reply so that it can be renewed; null: none.</param>
public sealed class ReplyConnectors(ReplyAddresses addresses, string? tokenFile) : ConnectorFactory, IDisposable
{
    /// <summary>A limit of the machine: one more address than this has its connector made anew each time.</summary>
    const int MostKept = 256;

    /// <summary>A redirection would lead past the list.</summary>
    readonly HttpClient _client = new(new SocketsHttpHandler { AllowAutoRedirect = false });

    readonly ServiceClientCredentials _credentials = tokenFile is null ? new NoCredentials() : new TokenOfFile(tokenFile);
    readonly ConcurrentDictionary<string, IConnectorClient> _kept = new(StringComparer.Ordinal);
    readonly Lock _making = new();

    public override Task<IConnectorClient> CreateAsync(string serviceUrl, string audience, CancellationToken cancellationToken)
    {
        if (!addresses.Allows(serviceUrl))
            throw new UnauthorizedAccessException("The service address is not on the list.");
        return Task.FromResult(_kept.TryGetValue(serviceUrl, out var kept) ? kept : Make(serviceUrl));
    }

    public void Dispose() => _client.Dispose();

    /// <summary>A connector writes its name into the headers of the client that all share: one at a time.</summary>
    IConnectorClient Make(string serviceUrl)
    {
        lock (_making)
        {
            if (_kept.TryGetValue(serviceUrl, out var kept))
                return kept;
            var made = new KeptConnector(new Uri(serviceUrl), _credentials, _client);
            if (_kept.Count < MostKept)
                _kept.TryAdd(serviceUrl, made);
            return made;
        }
    }

    sealed class NoCredentials : ServiceClientCredentials;

    sealed class TokenOfFile(string file) : ServiceClientCredentials
    {
        public override async Task ProcessHttpRequestAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            ArgumentNullException.ThrowIfNull(request);
            var token = await File.ReadAllTextAsync(file, cancellationToken).ConfigureAwait(false);
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token.Trim());
        }
    }

    /// <summary>The end of a turn disposes of its connector; the next turn to the same address uses it again.</summary>
    sealed class KeptConnector(Uri address, ServiceClientCredentials credentials, HttpClient client)
        : ConnectorClient(address, credentials, client, disposeHttpClient: false)
    {
        [SuppressMessage("Usage", "CA2215", Justification = "It stays usable on purpose, and holds nothing but the client that all share.")]
        protected override void Dispose(bool disposing)
        {
        }
    }
}
