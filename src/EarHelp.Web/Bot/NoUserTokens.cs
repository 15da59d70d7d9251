using Microsoft.Bot.Connector.Authentication;
using Microsoft.Bot.Schema;

namespace EarHelp.Web.Bot;

/// <summary>Nobody signs in anywhere through this bot; the SDK wants to be told so for every turn.</summary>
sealed class NoUserTokens : UserTokenClient
{
    public override Task<TokenResponse> GetUserTokenAsync(
        string userId, string connectionName, string channelId, string magicCode, CancellationToken cancellationToken) =>
        throw Refused();

    public override Task<SignInResource> GetSignInResourceAsync(
        string connectionName, Activity activity, string finalRedirect, CancellationToken cancellationToken) =>
        throw Refused();

    public override Task SignOutUserAsync(string userId, string connectionName, string channelId, CancellationToken cancellationToken) =>
        throw Refused();

    public override Task<TokenStatus[]> GetTokenStatusAsync(
        string userId, string channelId, string includeFilter, CancellationToken cancellationToken) =>
        throw Refused();

    public override Task<Dictionary<string, TokenResponse>> GetAadTokensAsync(
        string userId, string connectionName, string[] resourceUrls, string channelId, CancellationToken cancellationToken) =>
        throw Refused();

    public override Task<TokenResponse> ExchangeTokenAsync(
        string userId, string connectionName, string channelId, TokenExchangeRequest exchangeRequest, CancellationToken cancellationToken) =>
        throw Refused();

    static NotSupportedException Refused() => new("This bot keeps no tokens of users.");
}
