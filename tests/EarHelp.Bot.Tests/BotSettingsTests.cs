using EarHelp.Web.Bot;
using Microsoft.Extensions.Configuration;

namespace EarHelp.Bot.Tests;

public sealed class BotSettingsTests
{
    static readonly (string Key, string? Value)[] Whole =
    [
        ("Bot:Issuer", "https://issuer.example"), ("Bot:Audience", "bot"), ("Bot:KeysFile", "keys.json"),
        ("Bot:ServiceAddresses:0", "https://channel.example/"),
    ];

    static BotSettings? Read(params IEnumerable<(string Key, string? Value)> settings) => BotSettings.Read(
        new ConfigurationBuilder().AddInMemoryCollection(settings.Select(s => KeyValuePair.Create(s.Key, s.Value))).Build());

    [Fact]
    public void Without_settings_there_is_no_endpoint() => Assert.Null(Read());

    [Fact]
    public void Whole_settings_are_read() => Assert.Equal("bot", Read(Whole)?.Audience);

    [Theory]
    [InlineData("Bot:Issuer")]
    [InlineData("Bot:Audience")]
    [InlineData("Bot:KeysFile")]
    [InlineData("Bot:ServiceAddresses:0")]
    public void Settings_that_leave_out_what_safety_needs_stop_the_start(string left) =>
        Assert.Throws<InvalidOperationException>(() => Read(Whole.Where(s => s.Key != left)));

    [Fact]
    public void Two_sources_of_keys_stop_the_start() =>
        Assert.Throws<InvalidOperationException>(() => Read([.. Whole, ("Bot:Metadata", "https://issuer.example/")]));

    [Theory]
    [InlineData("http://channel.example/")]
    [InlineData("channel")]
    public void An_address_without_encryption_stops_the_start(string address) =>
        Assert.Throws<InvalidOperationException>(() => Read([.. Whole, ("Bot:ServiceAddresses:1", address)]));
}
