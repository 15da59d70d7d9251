namespace EarHelp.Cli;

/// <summary>The command cannot start as it was called. The message goes to the person at the terminal.</summary>
public sealed class WrongUseException : Exception
{
    public WrongUseException()
    {
    }

    public WrongUseException(string message)
        : base(message)
    {
    }

    public WrongUseException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
