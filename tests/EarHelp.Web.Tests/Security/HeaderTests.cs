using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Security;

/// <summary>Every kind of response carries the same headers (OWASP ASVS 5.0.0, 3.4).</summary>
[Collection(OneService.Name)]
public sealed class HeaderTests(SharedService service)
{
    public static TheoryData<string> Addresses =>
        ["/", "/letter", "/plan", "/about", "/privacy", "/accessibility", "/abroad", "/left", "/nowhere", "/answer", "/back/short", "/health/live"];

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Nothing_leaves_without_the_headers(string address)
    {
        using var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = service.Running.Address };

        var response = await client.GetAsync(new Uri(address, UriKind.Relative));

        AssertGuarded(response);
        Assert.Equal("no-store", response.Headers.CacheControl?.ToString());
    }

    [Fact]
    public async Task A_refused_form_carries_the_headers_too()
    {
        using var patient = service.Running.NewPatient();

        var response = await patient.SendAsync("/answer", []);

        Assert.Equal(400, (int)response.StatusCode);
        AssertGuarded(response);
    }

    [Theory]
    [InlineData("DELETE", "/answer", 405)]
    [InlineData("PUT", "/", 405)]
    [InlineData("OPTIONS", "/", 405)]
    [InlineData("HEAD", "/", 200)]
    [InlineData("HEAD", "/nowhere", 404)]
    [InlineData("POST", "/api/messages", 404)]
    [InlineData("POST", "/control/reload", 404)]
    [InlineData("GET", "/answer", 405)]
    public async Task A_method_that_is_not_meant_gets_the_headers_too(string method, string address, int status)
    {
        using var patient = service.Running.NewPatient();
        using var request = new HttpRequestMessage(new HttpMethod(method), address);

        var response = await patient.SendAsync(request);

        Assert.Equal(status, (int)response.StatusCode);
        AssertGuarded(response);
    }

    [Fact]
    public async Task A_fault_of_ours_carries_the_headers_and_the_emergency_text_and_none_of_what_was_said()
    {
        var broken = new FailingTurnStore();
        await using var own = await RunningService.StartAsync(configure: broken.Put);
        using var patient = own.NewPatient();
        await patient.BeginAsync();
        broken.OnRead = new FormatException("kanarienvogel");

        var page = await patient.ReadAsync("/letter");

        Assert.Equal(500, (int)page.Status);
        Assert.Contains("999", page.Text);
        Assert.DoesNotContain("kanarienvogel", page.Html + own.Log.Text);
        AssertGuarded(page.Response);
    }

    [Fact]
    public async Task The_look_may_be_kept_for_ever_and_is_compressed()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");
        var sheet = System.Text.RegularExpressions.Regex.Match(page.Html, "href=\"(?<a>/look/[^\"]+)\"").Groups["a"].Value;
        using var request = new HttpRequestMessage(HttpMethod.Get, sheet);
        request.Headers.AcceptEncoding.ParseAdd("br");

        var response = await patient.SendAsync(request);

        AssertGuarded(response);
        Assert.Contains("immutable", response.Headers.CacheControl?.ToString());
        Assert.Equal(["br"], response.Content.Headers.ContentEncoding);
    }

    [Fact]
    public async Task A_page_of_a_conversation_is_never_compressed()
    {
        using var patient = service.Running.NewPatient();
        await patient.BeginAsync();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/letter");
        request.Headers.AcceptEncoding.ParseAdd("br, gzip");

        var response = await patient.SendAsync(request);

        Assert.Equal(200, (int)response.StatusCode);
        Assert.Empty(response.Content.Headers.ContentEncoding);
    }

    static void AssertGuarded(HttpResponseMessage response)
    {
        var policy = Assert.Single(response.Headers.GetValues("Content-Security-Policy"));
        Assert.DoesNotContain("unsafe", policy);
        foreach (var part in (string[])["default-src 'none'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'self'", "object-src 'none'"])
            Assert.Contains(part, policy);
        Assert.Equal(["nosniff"], response.Headers.GetValues("X-Content-Type-Options"));
        Assert.Equal(["no-referrer"], response.Headers.GetValues("Referrer-Policy"));
        Assert.Equal(["same-origin"], response.Headers.GetValues("Cross-Origin-Opener-Policy"));
        Assert.Equal(["same-origin"], response.Headers.GetValues("Cross-Origin-Resource-Policy"));
        Assert.NotEmpty(response.Headers.GetValues("Permissions-Policy"));
        Assert.False(response.Headers.Contains("Server"));
    }
}
