namespace EarHelp.Exchange.Fhir;

/// <summary>The edition lacks what a record system needs; the message says what, and the mend.</summary>
public sealed class RecordsUnwritableException : Exception
{
    public RecordsUnwritableException()
    {
    }

    public RecordsUnwritableException(string message)
        : base(message)
    {
    }

    public RecordsUnwritableException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
