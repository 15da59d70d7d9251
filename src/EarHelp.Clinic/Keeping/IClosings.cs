using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Triage.Deadlines;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps when the clinic closed at once, for good.</summary>
public interface IClosings
{
    /// <summary>Keeps a closing, in the place of the one that was set at the same moment.</summary>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask PutAsync(SuddenClosing closing, CancellationToken cancellation);

    /// <summary>All of them, by the moment at which they were set.</summary>
    ValueTask<ImmutableArray<SuddenClosing>> AllAsync(CancellationToken cancellation);
}
