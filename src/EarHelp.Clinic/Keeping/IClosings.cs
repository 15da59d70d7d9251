using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using NodaTime;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps when the clinic closed at once, for good.</summary>
public interface IClosings
{
    /// <summary>Keeps a closing, in the place of the one that was set at the same moment.</summary>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask PutAsync(KeptClosing closing, CancellationToken cancellation);

    /// <summary>All of them, by the moment at which they were set.</summary>
    ValueTask<ImmutableArray<KeptClosing>> AllAsync(CancellationToken cancellation);
}

/// <summary>A closing at once, as it is kept.</summary>
/// <param name="LastDay">Inside, at the clinic.</param>
/// <param name="LiftedAt">Null: it runs its course.</param>
public sealed record KeptClosing(Instant SetAt, LocalDate LastDay, Instant? LiftedAt);
