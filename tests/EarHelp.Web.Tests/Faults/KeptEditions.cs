using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Storage;
using EarHelp.Triage.Deadlines;

namespace EarHelp.Web.Tests.Faults;

/// <summary>Every edition that a store keeps, for deciding its turns again.</summary>
sealed class KeptEditions(IStore store, ImmutableArray<SuddenClosing> closings) : IEditionShelf
{
    readonly ConcurrentDictionary<string, ServedEdition> _known = new(StringComparer.Ordinal);

    public ServedEdition Current => throw new InvalidOperationException("Nothing is served from here.");

    public static async Task<KeptEditions> OfAsync(IStore store) =>
        new(store, [.. (await store.Closings.AllAsync(default)).Select(c => new SuddenClosing(c.SetAt, c.LastDay, c.LiftedAt))]);

    public async ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation)
    {
        if (_known.TryGetValue(editionId, out var known))
            return known;
        var pack = await ((IEditionArchive)store).FindAsync(editionId, cancellation);
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack!.Value), CompileOptions.InService);
        return _known.GetOrAdd(editionId, new ServedEdition(compiled.Edition!, compiled.Assessor!, null, () => closings));
    }
}
