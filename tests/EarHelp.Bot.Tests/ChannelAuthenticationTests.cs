using System.Net;
using Microsoft.Bot.Builder;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Bot.Tests;

public sealed class ChannelAuthenticationTests : IAsyncLifetime, IDisposable
{
    readonly Issuer _issuer = new("key 1");
    readonly Issuer _stranger = new("key 1");
    readonly RecordingBot _bot = new();
    ChannelHost _host = null!;

    static DateTimeOffset Now => ChannelHost.Now;

    public async Task InitializeAsync() =>
        _host = await ChannelHost.StartAsync(_issuer, s => s.AddSingleton<IBot>(_bot), "https://channel.example/api");

    public Task DisposeAsync() => _host.DisposeAsync().AsTask();

    public void Dispose()
    {
        _issuer.Dispose();
        _stranger.Dispose();
    }

    [Fact]
    public async Task A_valid_token_is_let_in()
    {
        var status = await _host.StatusOfAsync($"Bearer {_issuer.Token(Now)}");

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(1, _bot.Turns);
    }

    public static TheoryData<string> BadTokens =>
    [
        "none", "garbage", "another scheme", "expired", "not yet valid", "wrong key", "wrong issuer", "wrong audience",
        "unsigned", "signed with the public key as a secret", "no service address", "another service address", "cut short",
    ];

    [Theory]
    [MemberData(nameof(BadTokens))]
    public async Task A_bad_token_is_answered_401_and_reaches_nobody(string kind)
    {
        var status = await _host.StatusOfAsync(BadToken(kind));

        Assert.Equal(HttpStatusCode.Unauthorized, status);
        Assert.Equal(0, _bot.Turns);
    }

    string? BadToken(string kind) => kind switch
    {
        "none" => null,
        "garbage" => "Bearer abc.def.ghi",
        "another scheme" => $"Basic {_issuer.Token(Now)}",
        "expired" => $"Bearer {_issuer.Token(Now, minutesLeft: -6, minutesOld: 60)}",
        "not yet valid" => $"Bearer {_issuer.Token(Now, minutesOld: -6)}",
        "wrong key" => $"Bearer {_stranger.Token(Now)}",
        "wrong issuer" => $"Bearer {_issuer.Token(Now, issuer: "https://elsewhere.example")}",
        "wrong audience" => $"Bearer {_issuer.Token(Now, audience: "another bot")}",
        "unsigned" => $"Bearer {_issuer.Unsigned(Now)}",
        "signed with the public key as a secret" => $"Bearer {_issuer.SignedWithPublicKeyAsSecret(Now)}",
        "no service address" => $"Bearer {_issuer.Token(Now, serviceUrl: null)}",
        "another service address" => $"Bearer {_issuer.Token(Now, serviceUrl: "https://channel.example/other")}",
        "cut short" => $"Bearer {_issuer.Token(Now)[..^10]}",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    [Fact]
    public async Task A_service_address_that_is_not_listed_is_refused_though_the_token_names_it()
    {
        const string elsewhere = "https://evil.example/";

        var status = await _host.StatusOfAsync(
            $"Bearer {_issuer.Token(Now, serviceUrl: elsewhere)}", SomeActivity.Message("hello", serviceUrl: elsewhere));

        Assert.Equal(HttpStatusCode.Unauthorized, status);
        Assert.Equal(0, _bot.Turns);
    }

    [Fact]
    public async Task New_keys_in_the_file_are_believed_and_old_ones_no_longer()
    {
        using var next = new Issuer("key 2");

        _host.ReplaceKeys(next);

        Assert.Equal(HttpStatusCode.OK, await _host.StatusOfAsync($"Bearer {next.Token(Now)}"));
        Assert.Equal(HttpStatusCode.Unauthorized, await _host.StatusOfAsync($"Bearer {_issuer.Token(Now)}"));
    }

    [Fact]
    public async Task A_key_speaks_only_for_the_channels_that_it_is_endorsed_for()
    {
        using var endorsedForOther = new Issuer("key 3", "another channel");
        using var endorsed = new Issuer("key 4", "test");

        _host.ReplaceKeys(endorsedForOther);
        var refused = await _host.StatusOfAsync($"Bearer {endorsedForOther.Token(Now)}");
        await using var second = await ChannelHost.StartAsync(endorsed, s => s.AddSingleton<IBot>(_bot), "https://channel.example/");
        var accepted = await second.StatusOfAsync($"Bearer {endorsed.Token(Now)}");

        Assert.Equal((HttpStatusCode.Unauthorized, HttpStatusCode.OK), (refused, accepted));
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("[]")]
    [InlineData("{}")]
    public async Task What_is_no_activity_is_answered_400(string body)
    {
        using var answer = await _host.PostAsync($"Bearer {_issuer.Token(Now)}", body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Fact]
    public async Task A_stream_is_refused()
    {
        using var answer = await _host.Client.GetAsync(EarHelp.Web.Bot.BotChannel.Path);

        Assert.Equal(HttpStatusCode.MethodNotAllowed, answer.StatusCode);
    }
}
