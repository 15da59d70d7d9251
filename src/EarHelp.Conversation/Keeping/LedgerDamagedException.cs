namespace EarHelp.Conversation.Keeping;

/// <summary>
/// The ledger of editions was changed after it was made, or a part of it is missing: it proves nothing any more, and nothing may be
/// added to it.
/// </summary>
public sealed class LedgerDamagedException : Exception
{
    public LedgerDamagedException()
    {
    }

    /// <param name="fault">Which record, and what is wrong with it.</param>
    public LedgerDamagedException(string fault)
        : base(fault + " Nothing is added to it. Restore the last verified backup of the data folder.")
    {
    }

    public LedgerDamagedException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
