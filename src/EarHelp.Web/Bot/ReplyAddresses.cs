using System.Collections.Immutable;

namespace EarHelp.Web.Bot;

/// <summary>
/// Where replies may go. The address comes from whoever calls, so without a list the service could be made to call anything.
/// </summary>
public sealed class ReplyAddresses(ImmutableArray<Uri> allowed)
{
    /// <summary>True if the address is one of the list or lies below one of them.</summary>
    public bool Allows(string? written) =>
        Uri.TryCreate(written, UriKind.Absolute, out var address)
        && IsSafe(address)
        && allowed.Any(a => IsAtOrBelow(address, a));

    /// <summary>https, or http to this machine itself; never with a name and password inside.</summary>
    internal static bool IsSafe(Uri address) =>
        address.UserInfo.Length == 0
        && (address.Scheme == Uri.UriSchemeHttps || (address.Scheme == Uri.UriSchemeHttp && address.IsLoopback));

    static bool IsAtOrBelow(Uri address, Uri root)
    {
        if (Uri.Compare(address, root, UriComponents.SchemeAndServer, UriFormat.SafeUnescaped, StringComparison.OrdinalIgnoreCase) != 0)
            return false;
        var folder = root.AbsolutePath.TrimEnd('/') + "/";
        return (address.AbsolutePath.TrimEnd('/') + "/").StartsWith(folder, StringComparison.Ordinal);
    }
}
