namespace EarHelp.Exchange.Calendars;

/// <summary>A calendar cannot be read whole; the message says why and holds nothing of what is in it.</summary>
public sealed class CalendarUnreadableException : Exception
{
    public CalendarUnreadableException()
    {
    }

    public CalendarUnreadableException(string message)
        : base(message)
    {
    }

    public CalendarUnreadableException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
