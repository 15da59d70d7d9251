namespace EarHelp.Web.Tests.CheckIns;

/// <summary>A clock that is set by hand over days. What waits for it, waits in real time: nothing is made up for.</summary>
public sealed class MovedClock(DateTimeOffset start) : TimeProvider
{
    DateTimeOffset _now = start;

    public void Set(DateTimeOffset now) => _now = now;

    public override DateTimeOffset GetUtcNow() => _now;
}
