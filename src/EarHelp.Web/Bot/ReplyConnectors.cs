using Microsoft.Bot.Connector;
using Microsoft.Bot.Connector.Authentication;
using Microsoft.Rest;

namespace EarHelp.Web.Bot;

/// <summary>Makes the connections that replies go out by: to addresses of the list and to no other, whoever asks.</summary>
/// <param name="tokenFile">Holds the bearer token that replies carry, read for each connection so that it can be renewed; null: none.</param>
public sealed class ReplyConnectors(ReplyAddresses addresses, string? tokenFile) : ConnectorFactory, IDisposable
{
    /// <summary>A redirection would lead past the list.</summary>
    readonly HttpClient _client = new(new SocketsHttpHandler { AllowAutoRedirect = false });

    public override async Task<IConnectorClient> CreateAsync(string serviceUrl, string audience, CancellationToken cancellationToken)
    {
        if (!addresses.Allows(serviceUrl))
            throw new UnauthorizedAccessException("The service address is not on the list.");
        ServiceClientCredentials credentials = tokenFile is null
            ? new NoCredentials()
            : new TokenCredentials((await File.ReadAllTextAsync(tokenFile, cancellationToken).ConfigureAwait(false)).Trim());
        return new ConnectorClient(new Uri(serviceUrl), credentials, _client, disposeHttpClient: false);
    }

    public void Dispose() => _client.Dispose();

    sealed class NoCredentials : ServiceClientCredentials;
}
