using System.Net;
using System.Net.Sockets;
using System.Threading.RateLimiting;
using EarHelp.Web.Bot;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Security;

/// <summary>How much one client, and all together, may ask for. A refused request still shows the emergency text.</summary>
public sealed class RequestLimits : IDisposable
{
    /// <summary>A network of one subscriber, from which single addresses are drawn at will (IPv6; common practice).</summary>
    const int SubscriberPrefixBytes = 8;

    readonly PartitionedRateLimiter<HttpContext> _limiter;

    public RequestLimits(ServiceSettings settings)
    {
        _limiter = PartitionedRateLimiter.CreateChained(
            PartitionedRateLimiter.Create<HttpContext, ClientAddress>(context => context.Request.Path == BotChannel.Path
                ? RateLimitPartition.GetNoLimiter(default(ClientAddress)) // One channel speaks for many people.
                : RateLimitPartition.GetTokenBucketLimiter(
                    ClientAddress.Of(context), _ => Bucket(settings.RequestsAMinute, TimeSpan.FromMinutes(1)))),
            PartitionedRateLimiter.Create<HttpContext, int>(_ => RateLimitPartition.GetTokenBucketLimiter(
                0, _ => Bucket(settings.RequestsASecond, TimeSpan.FromSeconds(1)))));
    }

    public bool Allows(HttpContext context)
    {
        using var lease = _limiter.AttemptAcquire(context);
        return lease.IsAcquired;
    }

    public void Dispose() => _limiter.Dispose();

    static TokenBucketRateLimiterOptions Bucket(int allowed, TimeSpan period)
    {
        var refills = Math.Min(allowed, 10);
        return new TokenBucketRateLimiterOptions
        {
            TokenLimit = allowed,
            TokensPerPeriod = allowed / refills,
            ReplenishmentPeriod = period / refills,
            AutoReplenishment = true,
            QueueLimit = 0,
        };
    }

    readonly record struct ClientAddress(UInt128 Network)
    {
        internal static ClientAddress Of(HttpContext context)
        {
            var address = context.Connection.RemoteIpAddress ?? IPAddress.None;
            if (address.IsIPv4MappedToIPv6)
                address = address.MapToIPv4();
            Span<byte> bytes = stackalloc byte[16];
            bytes.Clear();
            _ = address.TryWriteBytes(bytes, out _);
            if (address.AddressFamily == AddressFamily.InterNetworkV6)
                bytes[SubscriberPrefixBytes..].Clear();
            return new ClientAddress(System.Buffers.Binary.BinaryPrimitives.ReadUInt128BigEndian(bytes));
        }
    }
}
