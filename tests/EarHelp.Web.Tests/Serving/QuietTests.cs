using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Serving;

/// <summary>Neither what a person says nor what opens their conversation is in a log or an address.</summary>
public sealed class QuietTests
{
    const string Canary = "kanarienvogel";

    /// <summary>Whatever an operator may ask for.</summary>
    static readonly string[] Loudest =
    [
        "--Logging:LogLevel:Default", "Trace", "--Logging:LogLevel:EarHelp", "Trace", "--Logging:LogLevel:Microsoft.AspNetCore", "Trace",
        "--Logging:LogLevel:Microsoft.AspNetCore.Hosting.Diagnostics", "Trace", "--Logging:LogLevel:System", "Trace",
        $"--Logging:{typeof(CollectedLog).FullName}:LogLevel:Default", "Trace",
    ];

    [Fact]
    public async Task A_whole_conversation_leaves_no_word_in_the_log_or_in_an_address()
    {
        await using var service = await RunningService.StartAsync(settings: Loudest);
        using var patient = service.NewPatient();
        var page = await patient.BeginAsync($"my ear {Canary} went dull");
        await patient.ReachPlanAsync(page);
        var link = await patient.PostAsync("/link", (await patient.ReadAsync("/plan")).FormTo("/link"));
        var secret = System.Text.RegularExpressions.Regex.Match(link.Html, "/back/(?<s>[\\w-]+)").Groups["s"].Value;
        var cookie = patient.Cookies.GetCookies(service.Address)["earhelp"]!.Value;
        var asked = patient.Asked.ToList();
        await patient.ReadAsync($"/back/{secret}");

        Assert.NotEmpty(secret);
        Assert.All(Directory.EnumerateFiles(service.Data), f => AssertHolds(f, secret, cookie));
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

    /// <summary>The secrets are in no file but by their hashes, and what was said is in the store only.</summary>
    static void AssertHolds(string file, string secret, string cookie)
    {
        if (Path.GetExtension(file) is ".sock" or ".lock")
            return;
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        var text = System.Text.Encoding.UTF8.GetString(bytes);
        Assert.DoesNotContain(secret, text);
        Assert.DoesNotContain(cookie, text);
        if (Path.GetExtension(file) != ".db")
            Assert.DoesNotContain(Canary, text);
    }
}
