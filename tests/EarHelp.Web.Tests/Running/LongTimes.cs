using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Running;

static class LongTimes
{
    /// <summary>What watches look at each hour is looked at in that time.</summary>
    static readonly TimeSpan Watched = TimeSpan.FromHours(2);

    /// <summary>Days go by, of which the service sees the last two hours minute by minute. All of them, each watch of each minute, would take minutes.</summary>
    public static void Pass(this FakeTimeProvider clock, TimeSpan days)
    {
        clock.AdjustTime(clock.GetUtcNow() + days - Watched);
        clock.Advance(Watched);
    }
}
