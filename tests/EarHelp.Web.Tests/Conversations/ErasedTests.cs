using System.Text;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Conversations;

/// <summary>What was erased or swept is gone from the files and from the memory of the running service.</summary>
public sealed class ErasedTests
{
    const string Canary = "kanarienvogel";

    [Fact]
    public async Task An_erased_conversation_is_in_no_file_and_is_answered_no_more()
    {
        await using var service = await RunningService.StartAsync();
        using var patient = service.NewPatient();
        var danger = await patient.BeginAsync($"my ear {Canary} went dull");
        var id = await service.ConversationOfAsync(patient);
        using var socket = service.Socket();
        Assert.True(FilesHold(service.Data));

        var erased = await socket.PostAsync(new Uri($"/control/erase/{id}", UriKind.Relative), null);
        var next = await patient.AnswerAsync(danger, ("none", "yes"), ("text", "and more"));
        var letter = await patient.ReadAsync("/letter");

        Assert.Equal("{\"erased\":true}", await erased.Content.ReadAsStringAsync());
        Assert.False(FilesHold(service.Data));
        Assert.Equal(404, (int)next.Status);
        Assert.Contains("has been deleted", next.Text);
        Assert.Equal("/", letter.Address.AbsolutePath);
        Assert.Null(await service.Services.GetRequiredService<TurnTaking>().FindAsync(id, CancellationToken.None));
    }

    [Fact]
    public async Task An_unfinished_conversation_is_swept_after_seven_days_from_memory_too()
    {
        var clock = new FakeTimeProvider(new DateTimeOffset(2026, 11, 20, 9, 30, 0, TimeSpan.Zero));
        await using var service = await RunningService.StartAsync(configure: services => services.AddSingleton<TimeProvider>(clock));
        using var patient = service.NewPatient();
        var begun = await patient.BeginAsync($"my ear {Canary} went dull");
        var id = await service.ConversationOfAsync(patient);
        var swept = service.Log.LineWith("Removed 1 unfinished");
        clock.Pass(TimeSpan.FromDays(7));
        Assert.Equal(begun.Screen, (await patient.ReadAsync("/letter")).Screen);

        clock.Advance(TimeSpan.FromHours(2));
        await swept.WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Null(await service.Services.GetRequiredService<TurnTaking>().FindAsync(id, CancellationToken.None));
        Assert.False(FilesHold(service.Data));
        Assert.Equal("/", (await patient.ReadAsync("/letter")).Address.AbsolutePath);
    }

    static bool FilesHold(string folder) => Directory.EnumerateFiles(folder, "*.db").Any(f =>
    {
        using var file = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var all = new byte[file.Length];
        file.ReadExactly(all);
        return all.AsSpan().IndexOf(Encoding.UTF8.GetBytes(Canary)) >= 0;
    });
}
