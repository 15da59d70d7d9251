using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage;

/// <summary>Everything that is kept, in one place.</summary>
public interface IStore : ITurnStore, IEditionArchive, IEditionLedger, IKeptConversations, IKeptElsewhere, IAsyncDisposable
{
    /// <summary>Requests for visits, in the same place.</summary>
    IRequestStore Requests { get; }

    /// <summary>Accounts of staff, in the same place.</summary>
    IStaffStore Staff { get; }

    /// <summary>Who read and changed what, in the same place.</summary>
    IAuditTrail Audit { get; }

    /// <summary>What was recorded of visits, in the same place.</summary>
    IVisitStore Visits { get; }

    /// <summary>When the clinic closed at once, in the same place.</summary>
    IClosings Closings { get; }

    /// <summary>What went wrong, in the same place.</summary>
    IIncidents Incidents { get; }

    /// <summary>For whom the desk holds conversations, in the same place.</summary>
    ICallers Callers { get; }

    /// <summary>How patients are asked after a visit, in the same place.</summary>
    IFollowUps FollowUps { get; }

    /// <summary>Keys that seal what staff's browsers hold, in the same place.</summary>
    ISealingKeys SealingKeys { get; }

    /// <summary>How many changes wait to be kept at this moment.</summary>
    int Waiting { get; }

    /// <summary>How much room all of it takes. Unit: bytes.</summary>
    /// <exception cref="StoreFailedException">It cannot be asked.</exception>
    ValueTask<long> SizeAsync(CancellationToken cancellation);

    /// <summary>False while nothing can be kept.</summary>
    bool IsHealthy { get; }
}
