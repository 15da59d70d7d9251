using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace EarHelp.Bot.Tests;

/// <summary>An issuer of tokens of our own, with its key.</summary>
sealed class Issuer : IDisposable
{
    public const string Name = "https://issuer.example";
    public const string BotId = "the-bot";
    public const string ServiceUrl = "https://channel.example/api";

    readonly RSA _rsa = RSA.Create(2048);
    readonly string[]? _endorsements;

    public Issuer(string keyId, params string[]? endorsements)
    {
        _endorsements = endorsements is { Length: > 0 } ? endorsements : null;
        Key = new RsaSecurityKey(_rsa) { KeyId = keyId };
    }

    public RsaSecurityKey Key { get; }

    /// <summary>The public half, as the issuer would publish it.</summary>
    public string KeySet()
    {
        var parameters = _rsa.ExportParameters(includePrivateParameters: false);
        var key = new Dictionary<string, object>
        {
            ["kty"] = "RSA",
            ["use"] = "sig",
            ["kid"] = Key.KeyId,
            ["n"] = Base64UrlEncoder.Encode(parameters.Modulus),
            ["e"] = Base64UrlEncoder.Encode(parameters.Exponent),
        };
        if (_endorsements is not null)
            key["endorsements"] = _endorsements;
        return JsonSerializer.Serialize(new { keys = new[] { key } });
    }

    public string Token(
        DateTimeOffset now,
        string issuer = Name,
        string audience = BotId,
        string? serviceUrl = ServiceUrl,
        double minutesLeft = 60,
        double minutesOld = 1) =>
        new JsonWebTokenHandler { SetDefaultTimesOnTokenCreation = false }.CreateToken(new SecurityTokenDescriptor
        {
            Issuer = issuer,
            Audience = audience,
            NotBefore = now.UtcDateTime.AddMinutes(-minutesOld),
            Expires = now.UtcDateTime.AddMinutes(minutesLeft),
            Claims = serviceUrl is null ? [] : new Dictionary<string, object> { ["serviceurl"] = serviceUrl },
            SigningCredentials = new SigningCredentials(Key, SecurityAlgorithms.RsaSha256),
        });

    /// <summary>A token that says the same and is signed by nobody.</summary>
    public string Unsigned(DateTimeOffset now)
    {
        var parts = Token(now).Split('.');
        return $"{Base64UrlEncoder.Encode("""{"alg":"none","typ":"JWT"}""")}.{parts[1]}.";
    }

    /// <summary>A token signed with a secret anybody can know: the public key taken as a password.</summary>
    public string SignedWithPublicKeyAsSecret(DateTimeOffset now) =>
        new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
        {
            Issuer = Name,
            Audience = BotId,
            NotBefore = now.UtcDateTime.AddMinutes(-1),
            Expires = now.UtcDateTime.AddMinutes(60),
            Claims = new Dictionary<string, object> { ["serviceurl"] = ServiceUrl },
            SigningCredentials = new SigningCredentials(
                new SymmetricSecurityKey(_rsa.ExportSubjectPublicKeyInfo()) { KeyId = Key.KeyId }, SecurityAlgorithms.HmacSha256),
        });

    public void Dispose() => _rsa.Dispose();
}
