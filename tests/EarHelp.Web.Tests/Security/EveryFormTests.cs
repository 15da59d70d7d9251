using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Security;

/// <summary>No address takes a form without the token of this browser, and no page asks for one that is not guarded.</summary>
[Collection(OneService.Name)]
public sealed class EveryFormTests(SharedService service)
{
    [Fact]
    public async Task Every_address_that_takes_a_form_refuses_one_without_the_right_token()
    {
        using var patient = service.Running.NewPatient();
        await patient.BeginAsync();
        var addresses = Posts();

        foreach (var address in addresses)
        {
            var without = await patient.PostAsync(address, []);
            var wrong = await patient.PostAsync(address, [new("token", new string('A', 43)), new("turn", "t")]);

            Assert.Equal((400, 400), ((int)without.Status, (int)wrong.Status));
            Assert.Contains("999", wrong.Text);
        }

        Assert.True(addresses.Count >= 8, "addresses are missing from the list");
        Assert.Equal("danger signs", (await patient.ReadAsync("/letter")).Screen);
    }

    [Fact]
    public async Task No_page_has_a_style_or_a_script_of_its_own_or_a_form_without_a_token()
    {
        using var patient = service.Running.NewPatient();
        var pages = new List<PageRead> { await patient.ReadAsync("/"), await patient.AnswerAsync(await patient.ReadAsync("/")) };
        pages.AddRange(await patient.WalkAsync(await patient.BeginAsync()));
        using var other = service.Running.NewPatient();
        pages.Add(await other.BeginAsync("left ear"));
        foreach (var address in (string[])["/plan", "/letter", "/about", "/privacy", "/accessibility", "/abroad", "/start-over", "/left", "/nowhere", "/answer"])
            pages.Add(await patient.ReadAsync(address));

        Assert.All(pages, page =>
        {
            Assert.DoesNotMatch("<style|<[^>]* style=|<script(?![^>]* src=)|<[^>]* on[a-z]+=|javascript:", page.Html);
            foreach (System.Text.RegularExpressions.Match form in System.Text.RegularExpressions.Regex.Matches(page.Html, "(?s)<form .*?</form>"))
                Assert.Contains("name=\"token\"", form.Value);
        });
    }

    List<string> Posts() =>
    [
        .. service.Running.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("POST") ?? false)
            .Select(e => "/" + e.RoutePattern.RawText!.TrimStart('/'))
            .Where(a => !a.StartsWith(ControlSocket.Prefix, StringComparison.Ordinal))

            // Mail programs send it (RFC 8058, 3.1), which have neither a cookie nor a page: the secret code in the address stands for the token.
            .Where(a => a != "/stop-messages/{code}"),
    ];
}
