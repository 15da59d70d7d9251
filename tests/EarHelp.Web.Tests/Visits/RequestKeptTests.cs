using System.Text;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Visits;

/// <summary>How long a request is kept, and that nothing of it stays or is logged.</summary>
public sealed class RequestKeptTests
{
    const string Canary = "kanarienvogel@example.org";

    [Fact]
    public async Task A_request_is_kept_ninety_days_after_its_last_change_and_then_gone_with_its_contact()
    {
        var clock = new FakeTimeProvider(new DateTimeOffset(2026, 11, 20, 9, 30, 0, TimeSpan.Zero));
        await using var service = await RunningService.StartAsync(configure: services => services.AddSingleton<TimeProvider>(clock));
        using var patient = service.NewPatient();
        await Asking.PlanAsync(patient);
        var code = Asking.CodeOn(await Asking.AskAsync(patient, ("email", Canary)));
        var id = await service.ConversationOfAsync(patient);
        var store = service.Services.GetRequiredService<IRequestStore>();
        var swept = service.Log.LineWith("Removed 1 requests");

        clock.Pass(TimeSpan.FromDays(90));
        Assert.NotNull(await store.FindAsync(id, default));
        clock.Advance(TimeSpan.FromHours(2));
        await swept.WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Null(await store.FindAsync(id, default));
        Assert.False(FilesHold(service.Data));
        Assert.DoesNotContain(Canary, service.Log.Text, StringComparison.Ordinal);
        using var elsewhere = service.NewPatient();
        var receipt = await elsewhere.ReadAsync("/receipt");
        Assert.Equal(422, (int)(await elsewhere.PostAsync("/receipt", [.. receipt.FormTo("/receipt"), new("code", code)])).Status);
    }

    [Fact]
    public async Task Erasing_the_conversation_erases_the_request_and_its_code()
    {
        await using var service = await RunningService.StartAsync();
        using var patient = service.NewPatient();
        await Asking.PlanAsync(patient);
        await Asking.AskAsync(patient, ("email", Canary));
        var id = await service.ConversationOfAsync(patient);
        Assert.True(FilesHold(service.Data));
        using var socket = service.Socket();

        await socket.PostAsync(new Uri($"/control/erase/{id}", UriKind.Relative), null);

        Assert.Null(await service.Services.GetRequiredService<IRequestStore>().FindAsync(id, default));
        Assert.False(FilesHold(service.Data));
        Assert.Equal("/", (await patient.ReadAsync("/visit")).Address.AbsolutePath);
    }

    [Fact]
    public async Task A_clinic_that_says_no_days_takes_no_requests()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true, prepare: root =>
        {
            var clinic = Path.Combine(root, "content", "clinic.md");
            File.WriteAllText(clinic, File.ReadAllText(clinic).Replace("request kept days: 90\n", "", StringComparison.Ordinal));
        });
        using var patient = service.NewPatient();

        var plan = await Asking.PlanAsync(patient);

        Assert.DoesNotContain("href=\"/visit\"", plan.Html, StringComparison.Ordinal);
        Assert.True((await patient.ReadAsync("/visit")).IsPlan);
    }

    static bool FilesHold(string folder) => Directory.EnumerateFiles(folder, "*.db").Any(f =>
    {
        using var file = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var all = new byte[file.Length];
        file.ReadExactly(all);
        return all.AsSpan().IndexOf(Encoding.UTF8.GetBytes(Canary)) >= 0;
    });
}
