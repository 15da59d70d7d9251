using System.Buffers.Text;
using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace EarHelp.Servers.Host;

/// <summary>
/// A small provider of OpenID Connect (Core 1.0: discovery, keys, code flow with PKCE) that lets in whoever was named last by <c>POST /next</c>. It
/// refuses a wrong client, secret, code, address or verifier, as a real one does.
/// </summary>
public sealed class SignInProvider : IAsyncDisposable
{
    readonly WebApplication _app;
    readonly RSA _key = RSA.Create(2048);
    readonly ConcurrentDictionary<string, Asked> _codes = new();
    readonly (string Client, string Secret) _known;
    Person _next = new("nobody", "Nobody", []);

    SignInProvider(string client, string secret)
    {
        _known = (client, secret);
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        _app = builder.Build();
        _app.Urls.Add("http://127.0.0.1:0");
        _app.MapPost("/next", async (HttpContext context) => _next = (await context.Request.ReadFromJsonAsync<Person>())!);
        _app.MapGet("/.well-known/openid-configuration", () => Results.Json(new
        {
            issuer = Address,
            authorization_endpoint = Address + "/authorize",
            token_endpoint = Address + "/token",
            jwks_uri = Address + "/keys",
            response_types_supported = new[] { "code" },
            subject_types_supported = new[] { "public" },
            id_token_signing_alg_values_supported = new[] { "RS256" },
        }));
        _app.MapGet("/keys", Keys);
        _app.MapGet("/authorize", Authorize);
        _app.MapPost("/token", (Delegate)TokenAsync);
    }

    public string Address => _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    public static async Task<SignInProvider> StartAsync(string client, string secret)
    {
        var provider = new SignInProvider(client, secret);
        await provider._app.StartAsync();
        return provider;
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _key.Dispose();
    }

    IResult Keys()
    {
        var parts = _key.ExportParameters(includePrivateParameters: false);
        return Results.Json(new { keys = new[] { new { kty = "RSA", use = "sig", alg = "RS256", kid = "one", n = Base64Url.EncodeToString(parts.Modulus), e = Base64Url.EncodeToString(parts.Exponent) } } });
    }

    IResult Authorize(HttpContext context)
    {
        var query = context.Request.Query;
        if (query["client_id"] != _known.Client || query["response_type"] != "code" || query["code_challenge_method"] != "S256")
            return Results.BadRequest();
        var back = query["redirect_uri"].ToString();
        if (_next.Subject == "nobody")
            return Results.Redirect($"{back}?error=access_denied&state={Uri.EscapeDataString(query["state"].ToString())}");
        var code = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(16));
        _codes[code] = new Asked(_next, back, query["nonce"].ToString(), query["code_challenge"].ToString());
        return Results.Redirect($"{back}?code={code}&state={Uri.EscapeDataString(query["state"].ToString())}");
    }

    async Task<IResult> TokenAsync(HttpContext context)
    {
        var form = await context.Request.ReadFormAsync();
        var proof = Base64Url.EncodeToString(SHA256.HashData(Encoding.ASCII.GetBytes(form["code_verifier"].ToString())));
        if (form["client_id"] != _known.Client || form["client_secret"] != _known.Secret || !_codes.TryRemove(form["code"].ToString(), out var asked)
            || asked.Back != form["redirect_uri"] || asked.Challenge != proof)
            return Results.Json(new { error = "invalid_grant" }, statusCode: StatusCodes.Status400BadRequest);
        var now = TimeProvider.System.GetUtcNow().ToUnixTimeSeconds();
        var claims = new { iss = Address, sub = asked.By.Subject, aud = _known.Client, exp = now + 300, iat = now, nonce = asked.Nonce, name = asked.By.Name, roles = asked.By.Roles };
        return Results.Json(new { access_token = "none", token_type = "Bearer", expires_in = 300, id_token = Signed(claims) });
    }

    string Signed<T>(T claims)
    {
        var body = $"{Base64Url.EncodeToString("{\"alg\":\"RS256\",\"kid\":\"one\",\"typ\":\"JWT\"}"u8)}.{Base64Url.EncodeToString(JsonSerializer.SerializeToUtf8Bytes(claims))}";
        return $"{body}.{Base64Url.EncodeToString(_key.SignData(Encoding.ASCII.GetBytes(body), HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1))}";
    }

    /// <summary>Who signs in next.</summary>
    public sealed record Person(string Subject, string Name, IReadOnlyList<string> Roles);

    sealed record Asked(Person By, string Back, string Nonce, string Challenge);
}
