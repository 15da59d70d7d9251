namespace EarHelp.Web.Tests.Running;

/// <summary>Waiting for what another process does, and never for good.</summary>
static class Waiting
{
    static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);
    static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    /// <param name="otherwise">What is said if it is not so in time.</param>
    public static async Task UntilAsync(Func<Task<bool>> isSo, Func<string> otherwise)
    {
        for (var from = TimeProvider.System.GetTimestamp(); !await isSo(); await Task.Delay(Pause))
        {
            if (TimeProvider.System.GetElapsedTime(from) > Patience)
                Assert.Fail(otherwise());
        }
    }
}
