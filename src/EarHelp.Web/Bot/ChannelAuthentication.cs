using System.Security.Claims;
using Microsoft.Bot.Connector.Authentication;
using Microsoft.Bot.Schema;

namespace EarHelp.Web.Bot;

/// <summary>Lets in only activities with a token we believe, and lets replies out only to addresses on our list.</summary>
public sealed class ChannelAuthentication(TokenCheck tokens, ReplyAddresses addresses, ReplyConnectors connectors)
    : BotFrameworkAuthentication
{
    public override async Task<AuthenticateRequestResult> AuthenticateRequestAsync(
        Activity activity, string authHeader, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(activity);
        var identity = await tokens
            .CheckAsync(authHeader, activity.ChannelId, activity.ServiceUrl, cancellationToken)
            .ConfigureAwait(false);
        if (!addresses.Allows(activity.ServiceUrl))
            throw new UnauthorizedAccessException("The service address is not on the list.");
        return new AuthenticateRequestResult
        {
            ClaimsIdentity = identity,
            ConnectorFactory = connectors,
        };
    }

    /// <summary>Streams are refused: one message, one answer.</summary>
    public override Task<AuthenticateRequestResult> AuthenticateStreamingRequestAsync(
        string authHeader, string channelIdHeader, CancellationToken cancellationToken) =>
        Task.FromException<AuthenticateRequestResult>(new UnauthorizedAccessException("Streams are refused."));

    public override ConnectorFactory CreateConnectorFactory(ClaimsIdentity claimsIdentity) => connectors;

    public override Task<UserTokenClient> CreateUserTokenClientAsync(ClaimsIdentity claimsIdentity, CancellationToken cancellationToken) =>
        Task.FromResult<UserTokenClient>(new NoUserTokens());
}
