using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Security;

[Collection(OneService.Name)]
public sealed class FormGateTests(SharedService service)
{
    static readonly (string, string)[] Form = [("a:about whom", "me"), ("n:age", "34"), ("a:where now", "near the clinic")];

    [Fact]
    public async Task A_form_without_its_token_is_refused()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");

        var response = await patient.PostAsync("/answer", Filled(page).Where(f => f.Key != "token"));

        Assert.Equal(400, (int)response.Status);
        Assert.Contains("999", response.Text);
    }

    [Fact]
    public async Task Another_persons_token_is_refused()
    {
        using var patient = service.Running.NewPatient();
        using var other = service.Running.NewPatient();
        var token = (await other.ReadAsync("/")).Hidden.Single(f => f.Key == "token");
        var page = await patient.ReadAsync("/");

        var response = await patient.PostAsync("/answer", Filled(page).Where(f => f.Key != "token").Append(token));

        Assert.Equal(400, (int)response.Status);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("Origin", "https://elsewhere.example")]
    public async Task A_form_from_another_site_is_refused(string header, string value)
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");

        var response = await patient.SendAsync("/answer", Filled(page), (header, value));

        Assert.Equal(400, (int)response.StatusCode);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "same-origin")]
    [InlineData("Origin", "null")]
    public async Task A_form_of_our_own_page_is_taken(string header, string value)
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");

        var response = await patient.SendAsync("/answer", Filled(page), (header, value));

        Assert.Equal(303, (int)response.StatusCode);
    }

    [Fact]
    public async Task A_form_that_is_too_large_is_refused_with_the_emergency_text()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");

        var response = await patient.PostAsync("/answer", Filled(page).Append(new("text", new string('x', 100_000))));

        Assert.Equal(413, (int)response.Status);
        Assert.Contains("999", response.Text);
    }

    [Fact]
    public async Task A_form_with_a_letter_that_is_none_is_refused()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");

        var response = await patient.PostAsync("/answer", Filled(page).Append(new("text", "a\0b")));

        Assert.Equal(400, (int)response.Status);
    }

    static IEnumerable<KeyValuePair<string, string>> Filled(PageRead page) =>
        page.Hidden.Concat(Form.Select(f => KeyValuePair.Create(f.Item1, f.Item2)));
}
