namespace EarHelp.Cli;

/// <summary>What a command tells the program that started it.</summary>
public static class ExitCode
{
    public const int Fine = 0;

    /// <summary>The command ran and found faults in what it was given.</summary>
    public const int FaultsFound = 1;

    /// <summary>The command was called in a way it does not know, or on something that is not there.</summary>
    public const int WrongUse = 2;
}
