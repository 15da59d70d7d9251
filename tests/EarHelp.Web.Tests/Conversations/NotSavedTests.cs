using EarHelp.Conversation.Keeping;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

public sealed class NotSavedTests
{
    const string StrokeText = "A face that drops can be a sign of a stroke";

    readonly FailingTurnStore _store = new();

    [Fact]
    public async Task A_message_that_cannot_be_kept_is_answered_by_the_emergency_page()
    {
        await using var service = await RunningService.StartAsync(configure: FailingTurnStore.FailOnAppend);
        using var patient = service.NewPatient();

        var page = await patient.BeginAsync();

        Assert.Equal(503, (int)page.Status);
        Assert.Contains("Not saved", page.Text);
        Assert.Contains("In an emergency call 999", page.Text);
        Assert.True(page.Response.Headers.Contains("Content-Security-Policy"));
    }

    [Fact]
    public async Task A_first_message_that_cannot_be_kept_still_shows_the_emergency_it_led_to()
    {
        await using var service = await RunningService.StartAsync(configure: FailingTurnStore.FailOnAppend);
        using var patient = service.NewPatient();

        var page = await patient.BeginAsync("my face is drooping");

        Assert.Contains(StrokeText, page.Text);
        AssertAlarmBeforeNotSaved(page);
    }

    [Theory]
    [InlineData("a:speech trouble", "yes")]
    [InlineData("text", "my face is drooping")]
    public async Task A_later_message_that_cannot_be_kept_still_shows_the_emergency_it_led_to(string field, string value)
    {
        await using var service = await RunningService.StartAsync(configure: _store.Put);
        using var patient = service.NewPatient();
        var danger = await patient.BeginAsync();
        _store.OnAppend = new StoreFailedException("The disk is full.");

        AssertAlarmBeforeNotSaved(await patient.AnswerAsync(danger, (field, value)));

        _store.OnAppend = null;
        Assert.Equal("danger signs", (await patient.ReadAsync("/letter")).Screen);
    }

    [Theory]
    [InlineData("a:speech trouble", "yes")]
    [InlineData("text", "my face is drooping")]
    public async Task An_emergency_is_shown_even_if_nothing_can_be_read_any_more(string field, string value)
    {
        await using var service = await RunningService.StartAsync(configure: _store.Put);
        using var patient = service.NewPatient();
        var danger = await patient.BeginAsync();
        _store.OnRead = new StoreFailedException("The disk is gone.");

        AssertAlarmBeforeNotSaved(await patient.AnswerAsync(danger, (field, value)));
    }

    internal static void AssertAlarmBeforeNotSaved(PageRead page)
    {
        Assert.Equal(503, (int)page.Status);
        var alarm = page.Text.IndexOf("999", StringComparison.Ordinal);
        var notSaved = page.Text.IndexOf("Not saved", StringComparison.Ordinal);
        Assert.True(alarm >= 0 && alarm < notSaved, page.Text);
    }
}
