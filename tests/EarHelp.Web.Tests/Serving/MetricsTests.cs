using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Visits;

namespace EarHelp.Web.Tests.Serving;

public sealed partial class MetricsTests : IAsyncLifetime, IDisposable
{
    const string Canary = "kanarienvogel";

    readonly HttpClient _watcher = new() { BaseAddress = new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{FreePort()}")) };
    RunningService _service = null!;

    public async Task InitializeAsync() => _service = await RunningService.StartAsync(settings: ["--metrics-url", _watcher.BaseAddress!.AbsoluteUri]);

    public async Task DisposeAsync() => await _service.DisposeAsync();

    public void Dispose() => _watcher.Dispose();

    [Fact]
    public async Task Turns_outcomes_and_the_state_of_the_store_are_told_and_nothing_about_anybody()
    {
        using var patient = _service.NewPatient();
        await patient.ReachPlanAsync(await patient.BeginAsync(words: Canary), Asking.SlowlyDuller);

        using var answer = await _watcher.GetAsync(new Uri("/metrics", UriKind.Relative));
        var text = await answer.Content.ReadAsStringAsync();

        // The media type and the form of a line: "Exposition formats" in the documentation of Prometheus, text format 0.0.4 (from memory).
        Assert.Equal("text/plain; version=0.0.4; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        Assert.All(text.TrimEnd('\n').Split('\n'), line => Assert.Matches(Line(), line));
        Assert.EndsWith("\n", text, StringComparison.Ordinal);
        var turns = ValueOf(text, "earhelp_turns_total{result=\"kept\"}");
        Assert.InRange(turns, 5, 60);
        Assert.Single(Outcome().Matches(text));
        Assert.Equal(1, ValueOf(text, "earhelp_ready"));
        Assert.True(ValueOf(text, "earhelp_store_bytes") > 0);
        Assert.InRange(ValueOf(text, "earhelp_edition_age_seconds"), 0, 600);
        Assert.Equal(turns, ValueOf(text, "earhelp_turn_seconds_count"));
        var buckets = Bucket().Matches(text).Select(m => double.Parse(m.Groups["count"].Value, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(buckets.Order(), buckets);
        Assert.Equal(turns, buckets[^1]);
        Assert.DoesNotContain(Canary, text, StringComparison.Ordinal);
        Assert.DoesNotContain(await _service.ConversationOfAsync(patient), text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Metrics_are_told_at_their_own_address_and_on_the_socket_and_nowhere_else()
    {
        using var public1 = new HttpClient { BaseAddress = _service.Address };
        using var socket = _service.Socket();

        Assert.Equal(HttpStatusCode.NotFound, (await public1.GetAsync(new Uri("/metrics", UriKind.Relative))).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _watcher.GetAsync(new Uri("/", UriKind.Relative))).StatusCode);
        Assert.Contains("earhelp_ready 1", await socket.GetStringAsync(new Uri("/control/metrics", UriKind.Relative)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nonsense")]
    [InlineData("http://127.0.0.1:0")]
    public void An_address_that_cannot_be_used_is_named(string written)
    {
        var refused = Assert.Throws<SettingsException>(() => ServiceHost.Build(["--data", Path.GetTempPath(), "--root", Repository.Root, "--metrics-url", written]));

        Assert.Contains("--metrics-url", refused.Message, StringComparison.Ordinal);
    }

    static double ValueOf(string text, string name) =>
        double.Parse(text.Split('\n').Single(l => l.StartsWith(name + " ", StringComparison.Ordinal))[(name.Length + 1)..], CultureInfo.InvariantCulture);

    static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    [GeneratedRegex("^(# TYPE [a-z_]+ (counter|gauge|histogram)|[a-z_]+(\\{[a-z]+=\"[^\"]*\"(,[a-z]+=\"[^\"]*\")*\\})? ([0-9.E+-]+|\\+Inf))$")]
    private static partial Regex Line();

    [GeneratedRegex("^earhelp_outcomes_total\\{level=\"[^\"]+\"\\} 1$", RegexOptions.Multiline)]
    private static partial Regex Outcome();

    [GeneratedRegex("^earhelp_turn_seconds_bucket\\{le=\"[^\"]+\"\\} (?<count>[0-9]+)$", RegexOptions.Multiline)]
    private static partial Regex Bucket();
}
