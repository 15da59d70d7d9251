using EarHelp.Web.Editions;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Serving;

public sealed class EditionChangeTests
{
    [Fact]
    public async Task A_broken_edition_never_takes_the_place_of_a_good_one()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        var editions = service.Services.GetRequiredService<ServedEditions>();
        var good = editions.Current!.Edition.Id;
        File.AppendAllText(Path.Combine(service.Root, "dialogs", "levels.md"), "\n| level | within |\n|---|---|\n| now | soon |\n");

        var problems = await editions.LoadAsync(CancellationToken.None);

        Assert.NotEmpty(problems);
        Assert.Equal(good, editions.Current.Edition.Id);
        using var patient = service.NewPatient();
        Assert.Equal(200, (int)(await patient.ReadAsync("/")).Status);
    }

    [Fact]
    public async Task A_changed_file_is_served_without_a_restart()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        using var patient = service.NewPatient();
        var words = Path.Combine(service.Root, "content", "en", "page-notices.md");
        var served = service.Log.LineWith("is served from now on");
        File.WriteAllText(words, File.ReadAllText(words).Replace("This needs an answer.", "An answer is needed here.", StringComparison.Ordinal));

        await served.WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Contains("An answer is needed here.", (await patient.AnswerAsync(await patient.ReadAsync("/"))).Text);
    }

    [Fact]
    public async Task A_broken_file_is_named_in_the_log_and_the_service_goes_on()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        using var patient = service.NewPatient();
        var refused = service.Log.LineWith("is not served; the last good one stays");

        File.WriteAllText(Path.Combine(service.Root, "content", "en", "page-notices.md"), "---\nwords: interface\n---\n# Nothing\n");

        Assert.Contains("content/en/", await refused.WaitAsync(TimeSpan.FromSeconds(60)));
        Assert.Equal(200, (int)(await patient.ReadAsync("/")).Status);
    }

    [Fact]
    public async Task A_broken_first_edition_is_refused_with_every_fault_and_the_emergency_page_is_served()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true, prepare: root =>
        {
            File.AppendAllText(Path.Combine(root, "dialogs", "levels.md"), "\n| level | within |\n|---|---|\n| now | soon |\n");
            File.Delete(Path.Combine(root, "content", "en", "page-notices.md"));
        });
        using var patient = service.NewPatient();

        var page = await patient.ReadAsync("/");
        var ready = await patient.ReadAsync("/health/ready");

        Assert.Equal(503, (int)page.Status);
        Assert.Contains("999", page.Text);
        Assert.Equal(503, (int)ready.Status);
        Assert.Contains("dialogs/levels.md:", service.Log.Text);
        Assert.Contains("content/en/interface.md:", service.Log.Text);
    }

    [Fact]
    public async Task The_emergency_page_is_a_file_that_needs_nothing_else()
    {
        await using var service = await RunningService.StartAsync();

        var page = await File.ReadAllTextAsync(Path.Combine(service.Data, "emergency.html"));

        Assert.Contains("999", page);
        Assert.DoesNotContain("/look/", page);
        Assert.DoesNotContain("<script", page);
        Assert.DoesNotContain("<form", page);
    }

    [Fact]
    public async Task The_emergency_page_that_ships_is_the_one_of_the_shipped_words()
    {
        await using var service = await RunningService.StartAsync();

        var shipped = await File.ReadAllTextAsync(Path.Combine(Repository.Root, "content", "emergency.html"));

        Assert.Equal(await File.ReadAllTextAsync(Path.Combine(service.Data, "emergency.html")), shipped);
    }
}
