using System.Collections.Immutable;
using Microsoft.IdentityModel.Tokens;

namespace EarHelp.Web.Bot;

/// <summary>Keys of a JSON Web Key Set on disk, read again when the file changes.</summary>
public sealed class KeysFromFile(string path) : ISigningKeys
{
    readonly Lock _gate = new();
    DateTime _writtenAt = DateTime.MinValue;
    ImmutableArray<JsonWebKey> _keys = [];

    public ValueTask<ImmutableArray<JsonWebKey>> CurrentAsync(CancellationToken cancellation)
    {
        lock (_gate)
        {
            var writtenAt = File.GetLastWriteTimeUtc(path);
            if (writtenAt != _writtenAt)
            {
                _keys = [.. new JsonWebKeySet(File.ReadAllText(path)).Keys];
                _writtenAt = writtenAt;
            }

            return ValueTask.FromResult(_keys);
        }
    }

    public void LookAgain()
    {
        lock (_gate)
            _writtenAt = DateTime.MinValue;
    }
}
