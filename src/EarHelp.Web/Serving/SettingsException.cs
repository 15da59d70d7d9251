namespace EarHelp.Web.Serving;

/// <summary>The service cannot start as it was told to; the message says what to change.</summary>
public sealed class SettingsException : Exception
{
    public SettingsException()
    {
    }

    public SettingsException(string message)
        : base(message)
    {
    }

    public SettingsException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
