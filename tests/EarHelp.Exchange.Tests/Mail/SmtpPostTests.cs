using EarHelp.Clinic.CheckIns;
using EarHelp.Exchange.Mail;
using EarHelp.Servers.Host;

namespace EarHelp.Exchange.Tests.Mail;

/// <summary>Against a real SMTP server in a process of its own (RFC 5321, STARTTLS of RFC 3207).</summary>
public sealed class SmtpPostTests : IClassFixture<SmtpPostTests.Server>
{
    static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    readonly SmtpProcess _server;

    public SmtpPostTests(Server server) => _server = server?.Process!;

    [Fact]
    public async Task Hands_a_message_over_by_a_secure_way_with_its_own_name_and_how_to_stop()
    {
        Assert.Equal(Delivery.Accepted, await PostWith(Patience, _server.Certificate).SendAsync(To("mo@patient.example.org", "day-three"), default));

        var (name, text) = _server.Taken().Last(t => t.Text.Contains("day-three", StringComparison.Ordinal));
        Assert.EndsWith("-secure.eml", name, StringComparison.Ordinal);
        foreach (var line in (string[])["Message-Id: <day-three@clinic.example.org>", "Subject: A question for you", "To: mo@patient.example.org", "List-Unsubscribe-Post: List-Unsubscribe=One-Click", "Auto-Submitted: auto-generated"])
            Assert.Contains(line, text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("List-Unsubscribe: <https://clinic.example.org/check-in/stop/c>", text.Replace("\r\n ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hands_nothing_to_a_server_whose_certificate_nobody_believes() =>
        Assert.Equal(Delivery.NotNow, await PostWith(Patience, null).SendAsync(To("mo@patient.example.org", "not-believed"), default));

    [Theory]
    [InlineData("refused@patient.example.org", Delivery.Refused)]
    [InlineData("later@patient.example.org", Delivery.NotNow)]
    public async Task Tells_never_from_later(string to, Delivery delivery) =>
        Assert.Equal(delivery, await PostWith(Patience, _server.Certificate).SendAsync(To(to, "told-apart"), default));

    [Fact]
    public async Task Does_not_know_what_became_of_a_message_if_the_server_is_too_slow() =>
        Assert.Equal(Delivery.Unknown, await PostWith(TimeSpan.FromSeconds(1), _server.Certificate).SendAsync(To("slow@patient.example.org", "slow"), default));

    [Fact]
    public async Task A_server_that_is_away_is_tried_again_later()
    {
        await using var server = await SmtpProcess.StartAsync();
        await server.StopAsync();

        var post = new SmtpPost(Settings(server.Port, Patience, server.Certificate), TimeProvider.System);

        Assert.Equal(Delivery.NotNow, await post.SendAsync(To("mo@patient.example.org", "away"), default));
    }

    SmtpPost PostWith(TimeSpan patience, string? certificate) => new(Settings(_server.Port, patience, certificate), TimeProvider.System);

    static MailSettings Settings(int port, TimeSpan patience, string? certificate) =>
        new("127.0.0.1", port, "hello@clinic.example.org", MailSecurity.StartTls, null, null, certificate, patience);

    static OutgoingMessage To(string address, string name) =>
        new(name, address, "A question for you", "Please open this link.", new Uri("https://clinic.example.org/check-in/stop/c"));

    public sealed class Server : IAsyncLifetime
    {
        public SmtpProcess Process { get; private set; } = null!;

        public async Task InitializeAsync() => Process = await SmtpProcess.StartAsync();

        public async Task DisposeAsync() => await Process.DisposeAsync();
    }
}
