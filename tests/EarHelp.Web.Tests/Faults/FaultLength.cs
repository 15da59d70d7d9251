namespace EarHelp.Web.Tests.Faults;

/// <summary>How much the fault tests do: a little in the ordinary run, all of it where the variable says so (tests/faults sets it).</summary>
static class FaultLength
{
    public static bool IsLong { get; } = Environment.GetEnvironmentVariable("EARHELP_FAULTS") == "long";

    /// <summary>Conversations that are open at once, through every fault.</summary>
    public static int Conversations => IsLong ? 10_000 : 24;

    /// <summary>Forms that are on their way at once.</summary>
    public static int OnTheirWay => IsLong ? 96 : 8;

    /// <summary>Forms that are acknowledged between two faults.</summary>
    public static int Between => IsLong ? 1_000 : 24;

    /// <summary>How long a database is gone.</summary>
    public static TimeSpan Outage => TimeSpan.FromSeconds(IsLong ? 30 : 1);

    /// <summary>People who ask for a visit and take a time.</summary>
    public static int Visitors => IsLong ? 24 : 2;

    /// <summary>The folder of an older version of everything, built, from which the nodes come that are replaced; null: this version is older and newer at once.</summary>
    public static string? OlderTree { get; } = Environment.GetEnvironmentVariable("EARHELP_FAULTS_OLDER") is { Length: > 0 } folder ? folder : null;
}
