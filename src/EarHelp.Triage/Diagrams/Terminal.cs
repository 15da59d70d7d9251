namespace EarHelp.Triage.Diagrams;

/// <summary>The ends of a diagram. What a value means is known to whoever built the root.</summary>
static class Terminal
{
    /// <summary>No patient gets here.</summary>
    public const int Impossible = int.MinValue;

    public const int False = -1;

    public const int True = -2;

    /// <param name="value">From 0; 0 is false, 1 is true.</param>
    public static int Of(int value) => -1 - value;

    public static int ValueOf(int terminal) => -1 - terminal;

    public static bool Is(int node) => node < 0;
}
