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

    /// <summary>False while nothing can be kept.</summary>
    bool IsHealthy { get; }
}
