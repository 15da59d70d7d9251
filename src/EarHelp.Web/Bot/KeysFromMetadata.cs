using System.Collections.Immutable;
using Microsoft.IdentityModel.Protocols;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;
using Microsoft.IdentityModel.Tokens;

namespace EarHelp.Web.Bot;

/// <summary>Keys that the issuer publishes itself; fetched again now and then, and when a token names an unknown key.</summary>
public sealed class KeysFromMetadata(Uri metadata) : ISigningKeys
{
    readonly ConfigurationManager<OpenIdConnectConfiguration> _published = new(
        metadata.AbsoluteUri,
        new OpenIdConnectConfigurationRetriever(),
        new HttpDocumentRetriever { RequireHttps = !metadata.IsLoopback });

    public async ValueTask<ImmutableArray<JsonWebKey>> CurrentAsync(CancellationToken cancellation)
    {
        var configuration = await _published.GetConfigurationAsync(cancellation).ConfigureAwait(false);
        return [.. configuration.JsonWebKeySet.Keys];
    }

    public void LookAgain() => _published.RequestRefresh();
}
