using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

public sealed class NotSavedTests
{
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
}
