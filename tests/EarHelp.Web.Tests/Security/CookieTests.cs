using EarHelp.Web.Security;
using EarHelp.Web.Tests.Running;
using Microsoft.AspNetCore.Http;

namespace EarHelp.Web.Tests.Security;

[Collection(OneService.Name)]
public sealed class CookieTests(SharedService service)
{
    [Fact]
    public async Task The_cookie_is_out_of_reach_of_scripts_and_other_sites()
    {
        using var patient = service.Running.NewPatient();

        var cookie = (await patient.ReadAsync("/")).Response.Headers.GetValues("Set-Cookie").Single();

        Assert.Contains("httponly", cookie);
        Assert.Contains("samesite=lax", cookie);
        Assert.Contains("path=/", cookie);
    }

    [Fact]
    public void Over_https_the_cookie_is_bound_to_this_host()
    {
        var context = new DefaultHttpContext();
        context.Request.Scheme = "https";

        PatientCookie.Write(context, Secret.New(), TimeSpan.FromDays(1));

        var cookie = context.Response.Headers.SetCookie.ToString();
        Assert.StartsWith("__Host-", cookie, StringComparison.Ordinal);
        Assert.Contains("secure", cookie);
        Assert.DoesNotContain("domain", cookie);
    }

    [Fact]
    public void A_secret_has_at_least_128_random_bits()
    {
        var secrets = Enumerable.Range(0, 1000).Select(_ => Secret.New()).ToHashSet();

        Assert.Equal(1000, secrets.Count);
        Assert.All(secrets, s => Assert.True(s.Length * 6 >= 128 && Secret.IsWellFormed(s)));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("short")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA!")]
    public void What_is_not_of_our_making_is_no_secret(string? written)
    {
        Assert.False(Secret.IsWellFormed(written));
    }

    [Fact]
    public async Task Leaving_takes_everything_out_of_the_browser()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.BeginAsync();

        var response = await patient.SendAsync("/leave", page.FormTo("/leave"));
        var after = await patient.ReadAsync("/letter");

        Assert.Contains("\"cookies\"", response.Headers.GetValues("Clear-Site-Data").Single());
        Assert.Equal("/", after.Address.AbsolutePath);
    }
}
