using System.Security.Cryptography;
using System.Text.Json;
using EarHelp.Web.Bot;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace Benchmarks.Serving;

/// <summary>A token that EarHelp's bot endpoint believes, and the settings that make it believe it.</summary>
sealed record ChannelToken(string Bearer, string KeysFile)
{
    public const string ServiceUrl = "http://127.0.0.1:9/";
    const string Issuer = "https://issuer.example";
    const string Audience = "the-bot";

    public string[] Settings =>
    [
        "--Bot:Issuer", Issuer, "--Bot:Audience", Audience, "--Bot:KeysFile", KeysFile, "--Bot:ServiceAddresses:0", ServiceUrl,
    ];

    public static BotSettings SettingsOf(string keysFile) => new(Issuer, Audience, keysFile, null, [new Uri(ServiceUrl)], null);

    public static ChannelToken Make(string folder)
    {
        using var rsa = RSA.Create(2048);
        var key = new RsaSecurityKey(rsa.ExportParameters(includePrivateParameters: true)) { KeyId = "load" };
        var shown = rsa.ExportParameters(includePrivateParameters: false);
        var file = Path.Combine(folder, "keys.json");
        var set = new { keys = new[] { new { kty = "RSA", use = "sig", kid = key.KeyId, n = Base64UrlEncoder.Encode(shown.Modulus), e = Base64UrlEncoder.Encode(shown.Exponent) } } };
        File.WriteAllText(file, JsonSerializer.Serialize(set));
        var bearer = new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
        {
            Issuer = Issuer,
            Audience = Audience,
            Expires = DateTime.UtcNow.AddHours(2),
            Claims = new Dictionary<string, object> { ["serviceurl"] = ServiceUrl },
            SigningCredentials = new SigningCredentials(key, SecurityAlgorithms.RsaSha256),
        });
        return new ChannelToken(bearer, file);
    }
}
