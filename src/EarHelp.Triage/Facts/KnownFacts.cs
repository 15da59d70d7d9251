namespace EarHelp.Triage.Facts;

/// <summary>The facts that the program knows by name; every dialog has them (EH0117).</summary>
public static class KnownFacts
{
    /// <summary>Chooses the grammar.</summary>
    public const string AboutWhom = "about whom";

    /// <summary>How many ears are asked about.</summary>
    public const string EarsAffected = "ears affected";
}
