namespace EarHelp.Conversation.Keeping;

/// <summary>The store could not do what it was asked: disk full, file taken, database gone. Nothing was acknowledged.</summary>
public sealed class StoreFailedException : Exception
{
    public StoreFailedException()
    {
    }

    public StoreFailedException(string message)
        : base(message)
    {
    }

    public StoreFailedException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
