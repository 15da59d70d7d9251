using System.Diagnostics;

namespace EarHelp.Web.Tests.Host;

/// <summary>Kills this process, by the signal that nobody can catch, when a point was passed so many times.</summary>
sealed class Death(DeathPoint point, int turn)
{
    int _passed;

    public bool IsNowAt(DeathPoint passed) => passed == point && Interlocked.Increment(ref _passed) == turn;

    public void PassBy(DeathPoint passed)
    {
        if (IsNowAt(passed))
            Come();
    }

    public static void Come()
    {
        using var self = Process.GetCurrentProcess();
        self.Kill();
        Thread.Sleep(Timeout.Infinite);
    }
}
