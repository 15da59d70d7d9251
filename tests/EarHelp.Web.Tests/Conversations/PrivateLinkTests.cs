using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

[Collection(OneService.Name)]
public sealed class PrivateLinkTests(SharedService service)
{
    [Fact]
    public async Task A_link_brings_the_conversation_to_another_browser()
    {
        using var patient = service.Running.NewPatient();
        var link = await LinkOfAsync(patient);
        using var elsewhere = service.Running.NewPatient();

        var page = await OpenAsync(elsewhere, link);

        Assert.Equal("/letter", page.Address.AbsolutePath);
        Assert.Equal("danger signs", page.Screen);
        Assert.Contains("34 years", page.Text);
    }

    [Fact]
    public async Task A_link_works_once()
    {
        using var patient = service.Running.NewPatient();
        var link = await LinkOfAsync(patient);
        using var first = service.Running.NewPatient();
        using var second = service.Running.NewPatient();
        await OpenAsync(first, link);

        var page = await OpenAsync(second, link);

        Assert.Equal(404, (int)page.Status);
        Assert.Contains("999", page.Text);
    }

    [Fact]
    public async Task Reading_the_page_of_a_link_does_not_use_it_up()
    {
        using var patient = service.Running.NewPatient();
        var link = await LinkOfAsync(patient);
        using var program = service.Running.NewPatient();
        await program.ReadAsync(link);
        await program.ReadAsync(link);
        using var elsewhere = service.Running.NewPatient();

        Assert.Equal(200, (int)(await OpenAsync(elsewhere, link)).Status);
    }

    [Fact]
    public async Task A_link_is_no_cookie()
    {
        using var patient = service.Running.NewPatient();
        var link = await LinkOfAsync(patient);
        using var stranger = service.Running.NewPatient();
        stranger.Cookies.Add(service.Running.Address, new System.Net.Cookie("earhelp", link["/back/".Length..]));

        var page = await stranger.ReadAsync("/letter");

        Assert.Equal("/", page.Address.AbsolutePath);
    }

    [Fact]
    public async Task The_one_who_made_the_link_goes_on_where_they_were()
    {
        using var patient = service.Running.NewPatient();
        await LinkOfAsync(patient);

        Assert.Equal("danger signs", (await patient.ReadAsync("/letter")).Screen);
    }

    static async Task<string> LinkOfAsync(Patient patient)
    {
        var page = await patient.BeginAsync();
        var shown = await patient.PostAsync("/link", page.FormTo("/link"));
        return Regex.Match(shown.Html, "/back/[\\w-]+").Value;
    }

    static async Task<PageRead> OpenAsync(Patient patient, string link)
    {
        var page = await patient.ReadAsync(link);
        return await patient.PostAsync("/back", page.FormTo("/back"));
    }
}
