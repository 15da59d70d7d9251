namespace EarHelp.Web.Tests.Host;

/// <summary>Where in a turn the process is killed, in the order of a turn.</summary>
public enum DeathPoint
{
    /// <summary>The form has come, and nothing was done with it.</summary>
    Received,

    /// <summary>It is decided what is replied; the store knows nothing of it.</summary>
    Decided,

    /// <summary>The store is at work.</summary>
    Saving,

    /// <summary>It is on the disk, and nobody was told.</summary>
    Saved,

    /// <summary>The answer is ready, and no byte of it is sent.</summary>
    Answering,

    /// <summary>All of the answer is written; the system may have sent it or not.</summary>
    Answered,
}
