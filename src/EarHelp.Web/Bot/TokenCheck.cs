using System.Security.Claims;
using System.Text.Json;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace EarHelp.Web.Bot;

/// <summary>Says who sent an activity, or that nobody we know did.</summary>
public sealed class TokenCheck(BotSettings settings, ISigningKeys keys, TimeProvider clock)
{
    /// <summary>The claim that binds a token to the address which replies go to.</summary>
    const string ServiceUrlClaim = "serviceurl";

    /// <summary>A key that lists endorsements may speak for the channels of that list only.</summary>
    const string Endorsements = "endorsements";

    /// <summary>How far the issuer's clock may be from ours. Common practice.</summary>
    static readonly TimeSpan Skew = TimeSpan.FromMinutes(5);

    static readonly string[] Algorithms =
    [
        SecurityAlgorithms.RsaSha256, SecurityAlgorithms.RsaSha384, SecurityAlgorithms.RsaSha512,
        SecurityAlgorithms.RsaSsaPssSha256, SecurityAlgorithms.RsaSsaPssSha384, SecurityAlgorithms.RsaSsaPssSha512,
        SecurityAlgorithms.EcdsaSha256, SecurityAlgorithms.EcdsaSha384, SecurityAlgorithms.EcdsaSha512,
    ];

    readonly JsonWebTokenHandler _handler = new() { MapInboundClaims = false };

    /// <param name="header">The whole value of the Authorization header.</param>
    /// <exception cref="UnauthorizedAccessException">Whatever is wrong with it: the caller learns nothing more.</exception>
    public async Task<ClaimsIdentity> CheckAsync(string? header, string? channel, string? serviceUrl, CancellationToken cancellation)
    {
        const string scheme = "Bearer ";
        if (header is null || !header.StartsWith(scheme, StringComparison.OrdinalIgnoreCase))
            throw Refused();
        var known = await keys.CurrentAsync(cancellation).ConfigureAwait(false);
        var result = await _handler.ValidateTokenAsync(header[scheme.Length..].Trim(), new TokenValidationParameters
        {
            ValidIssuer = settings.Issuer,
            ValidAudience = settings.Audience,
            ValidAlgorithms = Algorithms,
            IssuerSigningKeys = known,
            RequireExpirationTime = true,
            RequireSignedTokens = true,
            LifetimeValidator = IsAlive,
        }).ConfigureAwait(false);
        if (result.Exception is SecurityTokenSignatureKeyNotFoundException)
            keys.LookAgain();
        if (!result.IsValid || !IsBoundTo(result.ClaimsIdentity, serviceUrl) || !IsEndorsed(result.SecurityToken.SigningKey, channel))
            throw Refused();
        return result.ClaimsIdentity;
    }

    static UnauthorizedAccessException Refused() => new("The token is not one that this service believes.");

    static bool IsBoundTo(ClaimsIdentity identity, string? serviceUrl) =>
        serviceUrl is { Length: > 0 }
        && string.Equals(identity.FindFirst(ServiceUrlClaim)?.Value, serviceUrl, StringComparison.Ordinal);

    static bool IsEndorsed(SecurityKey? key, string? channel)
    {
        if (key is not JsonWebKey web || !web.AdditionalData.TryGetValue(Endorsements, out var listed))
            return true;
        using var list = JsonDocument.Parse(listed?.ToString() ?? "[]");
        return list.RootElement.EnumerateArray().Any(e => e.ValueEquals(channel));
    }

    bool IsAlive(DateTime? notBefore, DateTime? expires, SecurityToken token, TokenValidationParameters parameters)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        return expires is { } end && now <= end + Skew && (notBefore is not { } start || now >= start - Skew);
    }
}
