using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Serving;

/// <summary>Neither what a person says nor what opens their conversation is in a log or an address.</summary>
public sealed class QuietTests
{
    const string Canary = "kanarienvogel";

    [Fact]
    public async Task A_whole_conversation_leaves_no_word_in_the_log_or_in_an_address()
    {
        await using var service = await RunningService.StartAsync();
        using var patient = service.NewPatient();
        var page = await patient.BeginAsync($"my ear {Canary} went dull");
        await patient.ReachPlanAsync(page);
        var link = await patient.PostAsync("/link", (await patient.ReadAsync("/plan")).FormTo("/link"));
        var secret = System.Text.RegularExpressions.Regex.Match(link.Html, "/back/(?<s>[\\w-]+)").Groups["s"].Value;
        var cookie = patient.Cookies.GetCookies(service.Address)["earhelp"]!.Value;
        var asked = patient.Asked.ToList();
        await patient.ReadAsync($"/back/{secret}");

        Assert.NotEmpty(secret);
        Assert.All([Canary, secret, cookie], word => Assert.DoesNotContain(word, service.Log.Text));
        Assert.All(asked, address => Assert.DoesNotMatch($"{Canary}|{secret}|{cookie}|hearing|ear|dull", address.Replace("/start", string.Empty, StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_failure_leaves_no_word_in_the_log()
    {
        await using var service = await RunningService.StartAsync(configure: FailingTurnStore.FailOnAppend);
        using var patient = service.NewPatient();

        var page = await patient.BeginAsync($"my ear {Canary} went dull");

        Assert.Equal(503, (int)page.Status);
        Assert.DoesNotContain(Canary, service.Log.Text);
    }
}
