using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;

namespace EarHelp.Cli.Keeping;

/// <summary>The edition of the root folder, and earlier ones out of the archive.</summary>
sealed class EditionShelf(ServedEdition current, IEditionArchive? archive) : IEditionShelf
{
    readonly Dictionary<string, ServedEdition?> _earlier = new(StringComparer.Ordinal);

    public ServedEdition Current => current;

    public async ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation)
    {
        if (string.Equals(editionId, current.Edition.Id, StringComparison.Ordinal))
            return current;
        if (!_earlier.TryGetValue(editionId, out var found))
        {
            found = archive is not null && await archive.FindAsync(editionId, cancellation).ConfigureAwait(false) is { } pack ? Compile(pack) : null;
            _earlier[editionId] = found;
        }

        return found;
    }

    static ServedEdition? Compile(ReadOnlyMemory<byte> pack)
    {
        var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.InService);
        return compiled is { Edition: { } edition, Assessor: { } assessor } ? new ServedEdition(edition, assessor) : null;
    }
}
