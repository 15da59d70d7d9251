using System.Collections.Immutable;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps the keys that seal what staff's browsers hold and the keys of one-time codes: one ring for all nodes. None is ever removed.</summary>
public interface ISealingKeys
{
    /// <summary>Keeps a key; the same name again changes nothing.</summary>
    /// <exception cref="EarHelp.Conversation.Keeping.StoreFailedException">It is not kept.</exception>
    ValueTask AddAsync(SealingKey key, CancellationToken cancellation);

    /// <summary>All of them, by their name.</summary>
    ValueTask<ImmutableArray<SealingKey>> AllAsync(CancellationToken cancellation);
}

/// <param name="Body">XML as ASP.NET Core writes it; encrypted if the service was given a certificate.</param>
public sealed record SealingKey(string Name, string Body);
