using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>A clock that stands where the invented week has come to.</summary>
sealed class MovedClock(Instant now) : TimeProvider
{
    public Instant Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now.ToDateTimeOffset();
}
