namespace EarHelp.Conversation.Taking;

/// <summary>A kept conversation cannot go on: the edition that it began with is not in the archive. Nothing of it is changed or lost.</summary>
public sealed class EditionGoneException : Exception
{
    public EditionGoneException()
    {
    }

    public EditionGoneException(string editionId)
        : base($"The edition {editionId} is not in the archive, or cannot be compiled any more. Restore it from the last verified backup.")
    {
    }

    public EditionGoneException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
