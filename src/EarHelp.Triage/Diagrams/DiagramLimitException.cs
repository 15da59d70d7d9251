namespace EarHelp.Triage.Diagrams;

/// <summary>The tables could not be compiled within a stated bound; the message names the bound that was met.</summary>
public sealed class DiagramLimitException : Exception
{
    public DiagramLimitException()
    {
    }

    public DiagramLimitException(string message)
        : base(message)
    {
    }

    public DiagramLimitException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
