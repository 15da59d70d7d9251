namespace EarHelp.Clinic.CheckIns;

/// <summary>A message to one patient.</summary>
/// <param name="Name">What makes it one message, however often it is sent; opens nothing.</param>
/// <param name="Text">Plain text.</param>
/// <param name="StopAddress">Ends the messages without signing in.</param>
public sealed record OutgoingMessage(string Name, string To, string Subject, string Text, Uri StopAddress);

/// <summary>What became of a message that was handed over.</summary>
public enum Delivery
{
    Accepted,

    /// <summary>Not taken, and not for good: the server is away, slow, or says later.</summary>
    NotNow,

    /// <summary>Not taken for good, e.g. there is no such address.</summary>
    Refused,

    /// <summary>Cut off while the server had it: nobody knows whether it was taken.</summary>
    Unknown,
}
