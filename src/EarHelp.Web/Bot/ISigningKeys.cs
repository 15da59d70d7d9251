using System.Collections.Immutable;
using Microsoft.IdentityModel.Tokens;

namespace EarHelp.Web.Bot;

/// <summary>The public keys of the issuer.</summary>
public interface ISigningKeys
{
    ValueTask<ImmutableArray<JsonWebKey>> CurrentAsync(CancellationToken cancellation);

    /// <summary>A token named a key that is not among the current ones: look again next time, at the source's own pace.</summary>
    void LookAgain();
}
