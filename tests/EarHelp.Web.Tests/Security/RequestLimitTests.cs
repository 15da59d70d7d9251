using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Security;

public sealed class RequestLimitTests
{
    [Fact]
    public async Task Who_asks_too_much_still_reads_the_emergency_text()
    {
        await using var service = await RunningService.StartAsync(settings: ["--requests-a-minute", "3"]);
        using var patient = service.NewPatient();
        for (var i = 0; i < 3; i++)
            await patient.ReadAsync("/health/live");

        var refused = await patient.ReadAsync("/");

        Assert.Equal(429, (int)refused.Status);
        Assert.Contains("In an emergency call 999", refused.Text);
        Assert.Contains("Without hearing", refused.Text);
        Assert.True(refused.Response.Headers.Contains("Retry-After"));
        Assert.True(refused.Response.Headers.Contains("Content-Security-Policy"));
    }

    [Fact]
    public async Task A_forwarded_address_is_not_believed_without_a_known_proxy()
    {
        await using var service = await RunningService.StartAsync(settings: ["--requests-a-minute", "3"]);
        using var patient = service.NewPatient();
        var last = 0;
        for (var i = 0; i < 4; i++)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/health/live");
            request.Headers.Add("X-Forwarded-For", $"192.0.2.{i}");
            last = (int)(await patient.SendAsync(request)).StatusCode;
        }

        Assert.Equal(429, last);
    }

    [Fact]
    public async Task Clients_behind_a_known_proxy_are_counted_apart()
    {
        await using var service = await RunningService.StartAsync(settings: ["--requests-a-minute", "3", "--proxies", "127.0.0.1"]);
        using var patient = service.NewPatient();
        var last = 0;
        for (var i = 0; i < 4; i++)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/health/live");
            request.Headers.Add("X-Forwarded-For", $"192.0.2.{i}");
            last = (int)(await patient.SendAsync(request)).StatusCode;
        }

        Assert.Equal(200, last);
    }
}
