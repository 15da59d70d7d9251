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
